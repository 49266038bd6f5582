/** Where the last days of use stand along one axis of time, the same for every shelf. */
import { addMonths, daysBetween } from "#domain";

export interface AxisTick {
  /** Whole months from today; 0 is today. */
  months: number;
  /** 0 at the left edge to 1 at the right. */
  at: number;
}

export interface AxisMark {
  id: string;
  at: number;
}

const wholeMonths = [0, 1, 3, 6, 12, 24, 36];
// The left edge is kept for what is past, the right one for what has no end.
const pastRoom = 0.03;
const endlessAt = 0.985;

export interface ShelfAxis {
  ticks: readonly AxisTick[];
  place: (endsOn: string | null) => number;
}

/**
 * Makes the axis from today to the furthest of the last days, at least half a year. Distances
 * grow with the square root of the time: the next weeks, where something can still be done, get
 * the room.
 */
export function makeAxis(today: string, lastDays: readonly (string | null)[]): ShelfAxis {
  const furthest = lastDays.reduce<string>(
    (latest, day) => (day !== null && day > latest ? day : latest),
    addMonths(today, 6),
  );
  const span = daysBetween(today, furthest);
  const place = (endsOn: string | null): number => {
    if (endsOn === null) return endlessAt;
    const days = daysBetween(today, endsOn);
    if (days < 0) return 0;
    const share = Math.sqrt(Math.min(days / span, 1));
    return pastRoom + share * (0.95 - pastRoom);
  };
  const ticks = wholeMonths
    .map((months) => ({ months, day: addMonths(today, months) }))
    .filter(({ day }) => day <= furthest)
    .map(({ months, day }) => ({ months, at: place(day) }));
  return { ticks, place };
}

/** Sets marks that would cover each other side by side; they must come in the order of the axis. */
export function spreadMarks(marks: readonly AxisMark[], leastApart: number): readonly AxisMark[] {
  let before = -1;
  return marks.map((mark) => {
    const at = Math.max(mark.at, before + leastApart);
    before = at;
    return { ...mark, at: Math.min(at, 1) };
  });
}
