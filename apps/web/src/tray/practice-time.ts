import { hourAt } from "../today/day-line.ts";

/** The next full or half hour on the practice's clock, `HH:MM`; the last of the day is 23:30. */
export function nextHalfHour(instant: string, timeZone: string): string {
  const half = Math.min(47, Math.ceil(hourAt(instant, timeZone) * 2));
  return `${String(Math.floor(half / 2)).padStart(2, "0")}:${half % 2 === 0 ? "00" : "30"}`;
}
