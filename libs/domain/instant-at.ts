// Making a formatter is dear, and a zone is asked for many times.
const formatters = new Map<string, Intl.DateTimeFormat>();

function offsetMilliseconds(instant: number, timeZone: string): number {
  let formatter = formatters.get(timeZone);
  if (formatter === undefined) {
    formatter = new Intl.DateTimeFormat("en-u-ca-gregory-nu-latn", {
      timeZone,
      timeZoneName: "longOffset",
    });
    formatters.set(timeZone, formatter);
  }
  const name = formatter.formatToParts(instant).find(({ type }) => type === "timeZoneName")?.value;
  const match = /GMT([+-])(\d\d):(\d\d)/.exec(name ?? "");
  if (!match) return 0;
  const minutes = Number(match[2]) * 60 + Number(match[3]);
  return (match[1] === "-" ? -minutes : minutes) * 60_000;
}

/**
 * The instant (ISO 8601 with `Z`) at which clocks in a time zone show a full hour of a civil date.
 * An hour that daylight saving skips is read as the hour after the gap; of one that comes twice,
 * the first is meant or the second, as the zone's rule falls. Throws a RangeError for a zone that
 * does not exist or a date that cannot be read.
 */
export function instantAt(date: string, hour: number, timeZone: string): string {
  const wall = Date.parse(`${date}T${String(hour).padStart(2, "0")}:00:00Z`);
  const guess = wall - offsetMilliseconds(wall, timeZone);
  return new Date(wall - offsetMilliseconds(guess, timeZone)).toISOString();
}
