import { ALPHANUMERIC, firstOutside, SET_82 } from "./character-sets.ts";
import { enterDate, enterValue } from "./field-entry.ts";
import { readGtin } from "./gtin.ts";
import { GS } from "./gs1.ts";
import { readDate } from "./label-date.ts";
import type { LabelError, LabelFields } from "./result.ts";
import { EOT, RS } from "./separators.ts";

const OPENING = "[)>";
const MESSAGE_06 = `${OPENING}${RS}06${GS}`;
const CLOSING = RS + EOT;

/** A data identifier: the field it fills, and how. */
type Identifier = {
  field: "ppn" | "gtin" | "lot" | "serial" | "expiry" | "production";
  pattern?: string;
};

const IDENTIFIERS: Readonly<Record<string, Identifier>> = {
  "9N": { field: "ppn" },
  "8P": { field: "gtin" },
  "1T": { field: "lot" },
  S: { field: "serial" },
  D: { field: "expiry", pattern: "YYMMDD" },
  "16D": { field: "production", pattern: "YYYYMMDD" },
};

const MAX_TEXT_LENGTH = 20;
const PPN_LENGTHS = { min: 5, max: 22 };

/** Answers whether `text` from `start` on opens a message of ISO/IEC 15434. */
export function isMessage(text: string, start: number): boolean {
  return text.startsWith(OPENING, start);
}

/**
 * Answers the two check digits of a pharmacy product number without them: the characters' codes
 * weighted by 2, 3, 4 and so on from the left, modulo 97. Source: IFA coding system, PPN code
 * specification (from memory; two published numbers agree).
 */
export function ppnCheckDigits(text: string): string {
  let sum = 0;
  for (let index = 0; index < text.length; index += 1) sum += text.charCodeAt(index) * (index + 2);
  return `${sum % 97}`.padStart(2, "0");
}

/**
 * Answers the fields of a pharmacy product number message that fills `text` from `start` to its
 * end: format 06 of ISO/IEC 15434 with the data identifiers 9N, 8P, 1T, S, D and 16D. Errors:
 * `unsupported_scheme` for another format, `invalid_structure` for a broken frame or a message
 * without a product number, `unknown_data_identifier`, `empty_value`, `value_too_short`,
 * `value_too_long`, `invalid_character`, `invalid_check_digit`, `invalid_date`,
 * `conflicting_duplicate`. Source: IFA coding system (identifiers from memory).
 */
export function readPpnMessage(
  text: string,
  start: number,
  currentYear: number,
): LabelFields | LabelError {
  if (!text.startsWith(RS, start + OPENING.length)) {
    return { kind: "invalid_structure", at: start + OPENING.length, length: 0 };
  }
  if (!text.startsWith(MESSAGE_06, start)) {
    const length = Math.min(MESSAGE_06.length, text.length - start);
    return { kind: "unsupported_scheme", at: start, length };
  }
  const end = text.length - CLOSING.length;
  if (!text.endsWith(CLOSING) || end < start + MESSAGE_06.length) {
    return { kind: "invalid_structure", at: text.length, length: 0 };
  }
  const fields: LabelFields = {};
  let at = start + MESSAGE_06.length;
  while (at <= end) {
    const separator = text.indexOf(GS, at);
    const segmentEnd = separator === -1 ? end : separator;
    const fault = enterSegment(fields, { text: text.slice(0, segmentEnd), at, currentYear });
    if (fault !== undefined) return fault;
    at = segmentEnd + 1;
  }
  if (fields.ppn === undefined && fields.gtin === undefined) {
    return { kind: "invalid_structure", at: start + MESSAGE_06.length, length: 0 };
  }
  return fields;
}

type Segment = { text: string; at: number; currentYear: number };

function enterSegment(fields: LabelFields, segment: Segment): LabelError | undefined {
  const { text, at, currentYear } = segment;
  const name = /^\d{0,2}[A-Z]/.exec(text.slice(at, at + 3))?.[0] ?? "";
  const identifier = IDENTIFIERS[name];
  if (identifier === undefined) {
    return { kind: "unknown_data_identifier", at, length: text.length - at };
  }
  const valueAt = at + name.length;
  const length = text.length - valueAt;
  if (length === 0) return { kind: "empty_value", at: valueAt, length };
  const { field, pattern } = identifier;
  if (field === "expiry" || field === "production") {
    const form = { pattern: pattern ?? "", currentYear, dayZeroIsMonthEnd: true };
    const excess = length - form.pattern.length;
    const date = readDate(text, valueAt, form);
    if ("kind" in date) return date;
    if (excess > 0) return { kind: "value_too_long", at: text.length - excess, length: excess };
    return enterDate(fields, field, { value: date, at: valueAt, length });
  }
  const value = field === "gtin" ? readGtin(text, valueAt, 14) : text.slice(valueAt);
  if (typeof value !== "string") return value;
  const fault = field === "ppn" ? faultInPpn(text, valueAt) : faultInText(text, valueAt);
  return fault ?? enterValue(fields, field, { value, at: valueAt, length });
}

function faultInText(text: string, at: number): LabelError | undefined {
  const excess = text.length - at - MAX_TEXT_LENGTH;
  if (excess > 0) return { kind: "value_too_long", at: at + MAX_TEXT_LENGTH, length: excess };
  const bad = firstOutside(text, at, text.length, SET_82);
  return bad === -1 ? undefined : { kind: "invalid_character", at: bad, length: 1 };
}

function faultInPpn(text: string, at: number): LabelError | undefined {
  const length = text.length - at;
  const { min, max } = PPN_LENGTHS;
  if (length < min) return { kind: "value_too_short", at, length };
  if (length > max) return { kind: "value_too_long", at: at + max, length: length - max };
  const bad = firstOutside(text, at, text.length, ALPHANUMERIC);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  const checkAt = text.length - 2;
  if (ppnCheckDigits(text.slice(at, checkAt)) === text.slice(checkAt)) return undefined;
  return { kind: "invalid_check_digit", at: checkAt, length: 2 };
}
