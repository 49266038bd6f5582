import { hourAt } from "../today/day-line.ts";

/**
 * The instant at which the practice's wall clock shows a day and a time, ISO 8601 with `Z`; `null`
 * for what is no time, or one that the change to summer time leaves out. Of the two instants of an
 * hour that comes twice, the first.
 */
export function instantAt(civilDate: string, time: string, timeZone: string): string | null {
  const shown = Date.parse(`${civilDate}T${time}:00Z`);
  if (Number.isNaN(shown)) return null;
  const hour = new Date(shown).getUTCHours() + new Date(shown).getUTCMinutes() / 60;
  // No zone is further than 14 hours from UTC; zones differ by whole quarters of an hour.
  for (let offset = 14 * 60; offset >= -12 * 60; offset -= 15) {
    const instant = new Date(shown - offset * 60_000).toISOString();
    const isDay = civilDayAt(instant, timeZone) === civilDate;
    if (isDay && Math.abs(hourAt(instant, timeZone) - hour) < 1e-6) return instant;
  }
  return null;
}

function civilDayAt(instant: string, timeZone: string): string {
  return new Intl.DateTimeFormat("en-CA", {
    timeZone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
  }).format(new Date(instant));
}

/** The next full or half hour on the practice's clock, `HH:MM`; the last of the day is 23:30. */
export function nextHalfHour(instant: string, timeZone: string): string {
  const half = Math.min(47, Math.ceil(hourAt(instant, timeZone) * 2));
  return `${String(Math.floor(half / 2)).padStart(2, "0")}:${half % 2 === 0 ? "00" : "30"}`;
}
