/**
 * Calendar dates of the trade as `YYYY-MM-DD` strings, which sort as they follow one another.
 * A use-by date never becomes an instant: only "which day is it in the practice" needs a clock.
 */

const civilDatePattern = /^\d{4}-\d{2}-\d{2}$/;
const monthLengths = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

function isLeapYear(year: number): boolean {
  return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
}

function countDaysOfMonth(year: number, month: number): number {
  return month === 2 && isLeapYear(year) ? 29 : (monthLengths[month - 1] ?? 0);
}

/**
 * Answers whether a text is a date that exists: `YYYY-MM-DD`, years 0001 to 9999, of the Gregorian
 * calendar with its leap years. Source: ISO 8601-1 calendar date, extended format (from memory).
 */
export function isCivilDate(text: string): boolean {
  if (!civilDatePattern.test(text)) return false;
  const day = Number(text.slice(8));
  const year = Number(text.slice(0, 4));
  return year > 0 && day > 0 && day <= countDaysOfMonth(year, Number(text.slice(5, 7)));
}

function readParts(date: string): { year: number; month: number; day: number } {
  if (!isCivilDate(date)) throw new RangeError(`not a civil date: ${date}`);
  return {
    year: Number(date.slice(0, 4)),
    month: Number(date.slice(5, 7)),
    day: Number(date.slice(8)),
  };
}

function writeDate(year: number, month: number, day: number): string {
  if (year < 1 || year > 9999) throw new RangeError(`outside the years 0001 to 9999: ${year}`);
  const head = year < 1000 ? String(year).padStart(4, "0") : String(year);
  return `${head}-${month < 10 ? "0" : ""}${month}-${day < 10 ? "0" : ""}${day}`;
}

// Years begin in March here, so that the leap day is the last day of its year and needs no case.
function toDayNumber(date: string): number {
  const { year, month, day } = readParts(date);
  const marchYear = month > 2 ? year : year - 1;
  const marchMonth = (month + 9) % 12;
  const leapDays =
    Math.floor(marchYear / 4) - Math.floor(marchYear / 100) + Math.floor(marchYear / 400);
  return marchYear * 365 + leapDays + Math.floor((153 * marchMonth + 2) / 5) + day;
}

function fromDayNumber(dayNumber: number): string {
  const days = dayNumber - 1;
  const cycle = Math.floor(days / 146_097);
  const dayOfCycle = days - cycle * 146_097;
  const yearOfCycle = Math.floor(
    (dayOfCycle -
      Math.floor(dayOfCycle / 1460) +
      Math.floor(dayOfCycle / 36_524) -
      Math.floor(dayOfCycle / 146_096)) /
      365,
  );
  const dayOfYear =
    dayOfCycle - (365 * yearOfCycle + Math.floor(yearOfCycle / 4) - Math.floor(yearOfCycle / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const year = cycle * 400 + yearOfCycle + (month <= 2 ? 1 : 0);
  return writeDate(year, month, dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1);
}

/**
 * The date a whole number of days after `date`, before it where `days` is negative. Throws a
 * RangeError for a text that is no civil date or a result outside the years 0001 to 9999.
 */
export function addDays(date: string, days: number): string {
  return fromDayNumber(toDayNumber(date) + days);
}

/**
 * The same day of the month a whole number of months later, or the last day of that month where it
 * has no such day: 31 August and 6 months are 28 February, or 29. Throws a RangeError as `addDays`.
 * Source of the clamping: common practice, no source.
 */
export function addMonths(date: string, months: number): string {
  const { year, month, day } = readParts(date);
  const count = year * 12 + (month - 1) + months;
  const toYear = Math.floor(count / 12);
  const toMonth = count - toYear * 12 + 1;
  return writeDate(toYear, toMonth, Math.min(day, countDaysOfMonth(toYear, toMonth)));
}

/** How many days later than `from` the date `to` is; negative where it is earlier. */
export function daysBetween(from: string, to: string): number {
  return toDayNumber(to) - toDayNumber(from);
}

/**
 * The last day of the month that `date` lies in, which is what a label of month precision means
 * (GS1 General Specifications, AI 17 with day 00; from memory).
 */
export function lastDayOfMonth(date: string): string {
  const { year, month } = readParts(date);
  return writeDate(year, month, countDaysOfMonth(year, month));
}

// Making a formatter takes some tens of microseconds, far more than a whole check.
const formatters = new Map<string, Intl.DateTimeFormat>();

function getFormatter(timeZone: string): Intl.DateTimeFormat {
  let formatter = formatters.get(timeZone);
  if (formatter === undefined) {
    formatter = new Intl.DateTimeFormat("en-u-ca-gregory-nu-latn", {
      timeZone,
      year: "numeric",
      month: "numeric",
      day: "numeric",
    });
    formatters.set(timeZone, formatter);
  }
  return formatter;
}

// A whole practice's trays are checked at one instant, and formatting costs more than a check.
const remembered = new Map<string, string>();
const mostRemembered = 500;

/**
 * The civil date that a calendar on the wall shows at an instant. `instantIso` is ISO 8601 with `Z`
 * or an offset, `timeZone` an IANA name. Throws a RangeError for an instant that cannot be read or
 * a zone that does not exist; `isTimeZone` tells beforehand.
 */
export function civilDateAt(instantIso: string, timeZone: string): string {
  const key = `${timeZone} ${instantIso}`;
  const known = remembered.get(key);
  if (known !== undefined) return known;
  const date = formatCivilDate(instantIso, timeZone);
  if (remembered.size >= mostRemembered) remembered.clear();
  remembered.set(key, date);
  return date;
}

function formatCivilDate(instantIso: string, timeZone: string): string {
  let year = 0;
  let month = 0;
  let day = 0;
  for (const part of getFormatter(timeZone).formatToParts(new Date(instantIso))) {
    if (part.type === "year") year = Number(part.value);
    else if (part.type === "month") month = Number(part.value);
    else if (part.type === "day") day = Number(part.value);
  }
  return writeDate(year, month, day);
}

/**
 * Answers whether a text names a time zone of the IANA database that this runtime knows. A bare
 * offset such as `+01:00` is refused: it knows no daylight saving.
 */
export function isTimeZone(text: string): boolean {
  if (!/^[A-Za-z]/.test(text)) return false;
  try {
    getFormatter(text);
    return true;
  } catch {
    return false;
  }
}
