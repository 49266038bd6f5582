/**
 * Times by a clock on the wall of a time zone. Source: the zone's own rules, as the platform's time
 * zone data has them.
 */

// Making a formatter is dear, and a zone is asked for many times.
const formatters = new Map<string, Intl.DateTimeFormat>();

function formatterOf(timeZone: string): Intl.DateTimeFormat {
  const known = formatters.get(timeZone);
  if (known !== undefined) return known;
  const made = new Intl.DateTimeFormat("en-CA-u-ca-gregory-nu-latn", {
    timeZone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  });
  formatters.set(timeZone, made);
  return made;
}

/** The civil date and the time `HH:MM` that a clock in a zone shows at an instant. */
export function clockAt(instant: string, timeZone: string): { day: string; time: string } {
  const parts = formatterOf(timeZone).formatToParts(new Date(instant));
  const partOf = (name: string): string => parts.find(({ type }) => type === name)?.value ?? "";
  return {
    day: `${partOf("year")}-${partOf("month")}-${partOf("day")}`,
    time: `${partOf("hour")}:${partOf("minute")}`,
  };
}

/**
 * The instant (ISO 8601 with `Z`) at which a clock in a zone shows a day and a time `HH:MM`; `null`
 * for what is no time, or one that the change to summer time leaves out. Of the two instants of an
 * hour that comes twice, the first.
 */
export function instantOfClock(day: string, time: string, timeZone: string): string | null {
  const shown = Date.parse(`${day}T${time}:00Z`);
  if (Number.isNaN(shown) || !/^\d\d:\d\d$/.test(time)) return null;
  // No zone is further than 14 hours from UTC; zones differ by whole quarters of an hour.
  for (let offset = 14 * 60; offset >= -12 * 60; offset -= 15) {
    const instant = new Date(shown - offset * 60_000).toISOString();
    const clock = clockAt(instant, timeZone);
    if (clock.day === day && clock.time === time) return instant;
  }
  return null;
}
