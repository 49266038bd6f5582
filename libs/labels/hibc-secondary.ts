import { ALPHANUMERIC, belongs, DIGITS, firstOutside, numberAt } from "./character-sets.ts";
import { enterDate, enterValue } from "./field-entry.ts";
import { readDate } from "./label-date.ts";
import type { LabelError, LabelFields, LabelWarning } from "./result.ts";

/** How the date is written after `$$` or `$$+`, by the digit that announces it. */
const DATE_PATTERNS: Readonly<Record<string, { skip: number; pattern: string }>> = {
  "0": { skip: 0, pattern: "MMYY" },
  "1": { skip: 0, pattern: "MMYY" },
  "2": { skip: 1, pattern: "MMDDYY" },
  "3": { skip: 1, pattern: "YYMMDD" },
  "4": { skip: 1, pattern: "YYMMDDHH" },
  "5": { skip: 1, pattern: "YYJJJ" },
  "6": { skip: 1, pattern: "YYJJJHH" },
  "7": { skip: 1, pattern: "" },
};

/** How many digits of quantity follow the digit that announces them. */
const QUANTITY_DIGITS: Readonly<Record<string, number>> = { "8": 2, "9": 5 };

const MAX_TEXT_LENGTH = 18;

/** A secondary data string under reading: `text` holds nothing behind it. */
export type HibcText = {
  text: string;
  currentYear: number;
  fields: LabelFields;
  warnings: LabelWarning[];
};

/**
 * Enters what the secondary data from `start` to the end of `reading.text` say into the fields of
 * `reading`: lot, serial, expiry, production, quantity. Answers undefined or the first error:
 * `invalid_structure` when the segment begins with nothing known, `empty_value`,
 * `value_too_short`, `value_too_long`, `invalid_character`, `invalid_date`, `invalid_time`,
 * `unknown_data_identifier` for a supplement, `conflicting_duplicate`. A hyphen in a lot or serial
 * is accepted with a warning (project rule; the standard says alphanumeric). Source: ANSI/HIBC
 * 2.6-2016 sections 2.2 and 2.3.
 */
export function readHibcSecondary(reading: HibcText, start: number): LabelError | undefined {
  const { text } = reading;
  const slash = text.indexOf("/", start);
  const end = slash === -1 ? text.length : slash;
  const fault = readFirstSegment({ ...reading, text: text.slice(0, end) }, start, slash !== -1);
  if (fault !== undefined) return fault;
  let at = end;
  while (at < text.length) {
    const next = text.indexOf("/", at + 1);
    const segmentEnd = next === -1 ? text.length : next;
    const segment = { ...reading, text: text.slice(0, segmentEnd) };
    const supplementFault = readHibcSupplement(segment, at + 1);
    if (supplementFault !== undefined) return supplementFault;
    at = segmentEnd;
  }
  return undefined;
}

/**
 * Enters what one supplement from `start` to the end of `reading.text` says: S serial, 14D expiry,
 * 16D production, Q quantity. Errors as for `readHibcSecondary`. Source: ANSI/HIBC 2.6-2016
 * section 2.3.
 */
export function readHibcSupplement(reading: HibcText, start: number): LabelError | undefined {
  const { text } = reading;
  if (text.startsWith("S", start)) return enterText(reading, start + 1, "serial");
  if (text.startsWith("14D", start)) return enterLongDate(reading, start + 3, "expiry");
  if (text.startsWith("16D", start)) return enterLongDate(reading, start + 3, "production");
  if (text.startsWith("Q", start)) return enterQuantity(reading, start + 1);
  return { kind: "unknown_data_identifier", at: start, length: text.length - start };
}

function readFirstSegment(
  reading: HibcText,
  start: number,
  hasSupplements: boolean,
): LabelError | undefined {
  const { text } = reading;
  if (text.startsWith("$$", start)) {
    const isSerial = text.startsWith("+", start + 2);
    const announcedAt = start + (isSerial ? 3 : 2);
    return readAnnounced(reading, announcedAt, { isSerial, mayBeEmpty: hasSupplements });
  }
  if (text.startsWith("$+", start)) return enterText(reading, start + 2, "serial");
  if (text.startsWith("$", start)) {
    const isEmpty = text.length === start + 1;
    return isEmpty && hasSupplements ? undefined : enterText(reading, start + 1, "lot");
  }
  if (text.length >= start + 5 && firstOutside(text, start, start + 5, DIGITS) === -1) {
    const fault = enterForm(reading, start, { pattern: "YYJJJ", field: "expiry" });
    if (fault !== undefined || text.length === start + 5) return fault;
    return enterText(reading, start + 5, "lot");
  }
  return { kind: "invalid_structure", at: start, length: text.length - start };
}

type Announced = { isSerial: boolean; mayBeEmpty: boolean };

/** Quantity, then date, each announced by its digit, then lot or serial. */
function readAnnounced(
  reading: HibcText,
  start: number,
  { isSerial, mayBeEmpty }: Announced,
): LabelError | undefined {
  const { text } = reading;
  if (!belongs(text, start, DIGITS)) {
    return { kind: "invalid_structure", at: start, length: Math.min(1, text.length - start) };
  }
  let at = start;
  const quantityDigits = QUANTITY_DIGITS[text.charAt(at)] ?? 0;
  if (quantityDigits > 0) {
    const quantityEnd = at + 1 + quantityDigits;
    const quantity = { ...reading, text: text.slice(0, quantityEnd) };
    if (text.length < quantityEnd) {
      return { kind: "value_too_short", at: at + 1, length: text.length - at - 1 };
    }
    const fault = enterQuantity(quantity, at + 1);
    if (fault !== undefined) return fault;
    at = quantityEnd;
  }
  const form = DATE_PATTERNS[text.charAt(at)];
  if (form !== undefined) {
    at += form.skip;
    if (form.pattern !== "") {
      const fault = enterForm(reading, at, { pattern: form.pattern, field: "expiry" });
      if (fault !== undefined) return fault;
    }
    at += form.pattern.length;
  }
  const saysSomething = quantityDigits > 0 || (form !== undefined && form.pattern !== "");
  if (at === text.length && !isSerial && (saysSomething || mayBeEmpty)) return undefined;
  return enterText(reading, at, isSerial ? "serial" : "lot");
}

type Dated = { pattern: string; field: "expiry" | "production" };

function enterForm(reading: HibcText, start: number, dated: Dated): LabelError | undefined {
  const { text, currentYear, fields } = reading;
  const { pattern, field } = dated;
  const date = readDate(text, start, { pattern, currentYear, dayZeroIsMonthEnd: false });
  if ("kind" in date) return date;
  return enterDate(fields, field, { value: date, at: start, length: pattern.length });
}

function enterLongDate(
  reading: HibcText,
  start: number,
  field: "expiry" | "production",
): LabelError | undefined {
  const { text } = reading;
  const excess = text.length - start - 8;
  if (excess > 0) return { kind: "value_too_long", at: start + 8, length: excess };
  if (text.length === start) return { kind: "empty_value", at: start, length: 0 };
  return enterForm(reading, start, { pattern: "YYYYMMDD", field });
}

function enterQuantity({ text, fields }: HibcText, start: number): LabelError | undefined {
  const length = text.length - start;
  if (length === 0) return { kind: "empty_value", at: start, length };
  if (length > 5) return { kind: "value_too_long", at: start + 5, length: length - 5 };
  const bad = firstOutside(text, start, text.length, DIGITS);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  const value = numberAt(text, start, text.length);
  return enterValue(fields, "quantity", { value, at: start, length });
}

function enterText(
  reading: HibcText,
  start: number,
  field: "lot" | "serial",
): LabelError | undefined {
  const { text, fields, warnings } = reading;
  const length = text.length - start;
  if (length === 0) return { kind: "empty_value", at: start, length };
  if (length > MAX_TEXT_LENGTH) {
    const at = start + MAX_TEXT_LENGTH;
    return { kind: "value_too_long", at, length: length - MAX_TEXT_LENGTH };
  }
  let hyphenAt = -1;
  for (let at = start; at < text.length; at += 1) {
    if (belongs(text, at, ALPHANUMERIC)) continue;
    if (text.charAt(at) !== "-") return { kind: "invalid_character", at, length: 1 };
    if (hyphenAt === -1) hyphenAt = at;
  }
  if (hyphenAt !== -1)
    warnings.push({ kind: `non_alphanumeric_${field}`, at: hyphenAt, length: 1 });
  return enterValue(fields, field, { value: text.slice(start), at: start, length });
}
