/** Where the day's trays stand on the line of the day, in hours of the practice's clock. */

export interface DayLine {
  firstHour: number;
  lastHour: number;
}

/** The hours shown: the usual working day, wider where a tray or the present lies outside of it. */
export function spanDay(hours: readonly number[]): DayLine {
  const firstHour = Math.max(0, Math.floor(Math.min(8, ...hours)));
  const lastHour = Math.min(24, Math.ceil(Math.max(17, ...hours.map((hour) => hour + 1.2))));
  return { firstHour, lastHour };
}

/** How far along the line an hour lies, in percent. */
export function placeHour({ firstHour, lastHour }: DayLine, hour: number): number {
  return ((hour - firstHour) / (lastHour - firstHour)) * 100;
}

/** A row for each place of the list, so that two within `roomHours` never lie on one another. */
export function stackRows(hours: readonly number[], roomHours: number): readonly number[] {
  const rowEnds: number[] = [];
  return hours.map((hour) => {
    const free = rowEnds.findIndex((end) => end <= hour);
    const row = free === -1 ? rowEnds.length : free;
    rowEnds[row] = hour + roomHours;
    return row;
  });
}

/** The hour of the day of an instant in a time zone, with its fraction. */
export function hourAt(instant: string, timeZone: string): number {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone,
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  }).formatToParts(new Date(instant));
  const read = (type: string) => Number(parts.find((part) => part.type === type)?.value ?? 0);
  return read("hour") + read("minute") / 60;
}
