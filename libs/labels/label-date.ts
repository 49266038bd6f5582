import { DIGITS, firstOutside, numberAt } from "./character-sets.ts";
import type { LabelDate, LabelError } from "./result.ts";

/**
 * Answers the year of `today`, written YYYY-MM-DD, or NaN when it is not of that form. Every date
 * with a two-digit year is then refused, rather than put into a guessed century.
 */
export function yearOf(today: string): number {
  if (today.length !== 10) return NaN;
  for (let index = 0; index < 10; index += 1) {
    const unit = today.charCodeAt(index);
    const isRight = index === 4 || index === 7 ? unit === 45 : unit >= 48 && unit <= 57;
    if (!isRight) return NaN;
  }
  return numberAt(today, 0, 4);
}

/**
 * Answers the full year for the two-digit year `yy` of a label read in `currentYear`: the one that
 * lies between 49 years back and 50 years ahead. Source: GS1 General Specifications 7.12. HIBC
 * gives no rule; it is read by the same window (project rule).
 */
export function resolveCentury(yy: number, currentYear: number): number {
  const difference = yy - (currentYear % 100);
  const year = currentYear + difference;
  if (difference >= 51) return year - 100;
  return difference <= -50 ? year + 100 : year;
}

/** Answers how many days a month has; month 1 is January. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

function isoDate(year: number, month: number, day: number): string {
  const yearText = year < 1000 ? `${year}`.padStart(4, "0") : `${year}`;
  return yearText + (month < 10 ? "-0" : "-") + month + (day < 10 ? "-0" : "-") + day;
}

/**
 * Answers where the date written YYMMDD at `start` goes wrong: 0 year, 2 month or 4 day, counted
 * from `start`, or -1 when the day exists. Day 00 passes here. The six characters must be digits.
 * The century is resolved first, since it decides whether 29 February exists. Source: GS1 General
 * Specifications 3.4 (date elements) and 7.12.
 */
export function faultInYymmdd(text: string, start: number, currentYear: number): number {
  const year = resolveCentury(numberAt(text, start, start + 2), currentYear);
  if (!(year >= 0)) return 0;
  const month = numberAt(text, start + 2, start + 4);
  if (month < 1 || month > 12) return 2;
  return numberAt(text, start + 4, start + 6) > daysInMonth(year, month) ? 4 : -1;
}

/**
 * Answers the valid date written YYMMDD at `start`. Day 00 is the last day of the month, in leap
 * years too, and precision `month` remembers it. Source: GS1 General Specifications 3.4, note to
 * the date elements.
 */
export function readYymmdd(text: string, start: number, currentYear: number): LabelDate {
  const year = resolveCentury(numberAt(text, start, start + 2), currentYear);
  const month = numberAt(text, start + 2, start + 4);
  const day = numberAt(text, start + 4, start + 6);
  if (day !== 0) return { date: isoDate(year, month, day), precision: "day" };
  return { date: isoDate(year, month, daysInMonth(year, month)), precision: "month" };
}

/** How a dated field is written, and how to read it. */
export type DateForm = {
  /** Letters Y, M, D, J (day of the year) and H, one for each digit. */
  pattern: string;
  currentYear: number;
  /** Whether day 00 stands for the last day of the month; otherwise it is an error. */
  dayZeroIsMonthEnd: boolean;
};

type Written = { text: string; start: number; pattern: string };

function group({ text, start, pattern }: Written, letter: string): number | undefined {
  const first = pattern.indexOf(letter);
  if (first === -1) return undefined;
  return numberAt(text, start + first, start + pattern.lastIndexOf(letter) + 1);
}

/**
 * Answers the date written at `start` in the form given. A form without a day means the last day of
 * the month, precision `month`; hours are universal time (HIBC has no other). Errors:
 * `value_too_short` when the text ends first, `invalid_character` at the first that is no digit,
 * `invalid_date` for a day that does not exist, `invalid_time` for an hour above 23. Source:
 * ANSI/HIBC 2.6 section 2.2 (date formats), IFA coding system (identifiers D and 16D).
 */
export function readDate(text: string, start: number, form: DateForm): LabelDate | LabelError {
  const { pattern, currentYear } = form;
  const end = start + pattern.length;
  if (end > text.length) {
    return { kind: "value_too_short", at: start, length: text.length - start };
  }
  const bad = firstOutside(text, start, end, DIGITS);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  const faulty: LabelError = { kind: "invalid_date", at: start, length: pattern.length };
  const yearDigits = group({ text, start, pattern }, "Y") ?? 0;
  const year = pattern.includes("YYYY") ? yearDigits : resolveCentury(yearDigits, currentYear);
  if (!(year >= 1)) return faulty;
  const date = dayWithin(text, start, { ...form, year });
  if (date === undefined) return faulty;
  const hour = group({ text, start, pattern }, "H");
  if (hour === undefined) return date;
  if (hour > 23) return { kind: "invalid_time", at: end - 2, length: 2 };
  return { date: date.date, precision: "hour", time: `${text.slice(end - 2, end)}Z` };
}

function dayWithin(
  text: string,
  start: number,
  form: DateForm & { year: number },
): LabelDate | undefined {
  const { pattern, year, dayZeroIsMonthEnd } = form;
  const dayOfYear = group({ text, start, pattern }, "J");
  if (dayOfYear !== undefined) return ordinalDay(year, dayOfYear);
  const month = group({ text, start, pattern }, "M") ?? 0;
  if (month < 1 || month > 12) return undefined;
  const monthEnd = daysInMonth(year, month);
  const day = group({ text, start, pattern }, "D");
  if (day === undefined || (day === 0 && dayZeroIsMonthEnd)) {
    return { date: isoDate(year, month, monthEnd), precision: "month" };
  }
  if (day < 1 || day > monthEnd) return undefined;
  return { date: isoDate(year, month, day), precision: "day" };
}

function ordinalDay(year: number, dayOfYear: number): LabelDate | undefined {
  if (dayOfYear < 1) return undefined;
  let day = dayOfYear;
  for (let month = 1; month <= 12; month += 1) {
    const length = daysInMonth(year, month);
    if (day <= length) return { date: isoDate(year, month, day), precision: "day" };
    day -= length;
  }
  return undefined;
}
