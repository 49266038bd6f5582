import { ALPHANUMERIC, belongs, DIGITS, firstOutside, numberAt } from "./character-sets.ts";
import { endsInCheckDigit } from "./check-digit.ts";
import { countryLetters, countryNumbers } from "./code-lists.ts";
import { gmnCheckPair } from "./gmn.ts";
import { daysInMonth, faultInYymmdd } from "./label-date.ts";
import type { LabelError, LabelErrorDetail } from "./result.ts";

/**
 * The characters under examination, and the year that resolves two-digit years. One such object
 * serves a whole label and is moved along it, since a new one for every value costs more than the
 * checks themselves.
 */
export type Span = { readonly text: string; start: number; end: number; currentYear: number };

/** Examines a component of a value whose length and characters are already known to be right. */
export type ContentRule = (span: Span) => LabelError | undefined;

const PERCENT = 37;

function broken(detail: LabelErrorDetail, at: number, length: number): LabelError {
  return { kind: "invalid_structure", at, length, detail };
}

function checkDigit({ text, start, end }: Span): LabelError | undefined {
  if (endsInCheckDigit(text, start, end)) return undefined;
  return { kind: "invalid_check_digit", at: end - 1, length: 1 };
}

function checkPair({ text, start, end }: Span): LabelError | undefined {
  const pairAt = end - 2;
  if (pairAt < start) return { kind: "value_too_short", at: start, length: end - start };
  if (gmnCheckPair(text.slice(start, pairAt)) === text.slice(pairAt, end)) return undefined;
  return { kind: "invalid_check_character", at: pairAt, length: 2 };
}

function companyPrefix({ text, start, end }: Span): LabelError | undefined {
  for (let at = start; at < start + 2; at += 1) {
    if (at < end && belongs(text, at, DIGITS)) continue;
    return broken("company_prefix", start, Math.min(2, end - start));
  }
  return undefined;
}

function dateOrMonth({ text, start, currentYear }: Span): LabelError | undefined {
  const fault = faultInYymmdd(text, start, currentYear);
  return fault === -1 ? undefined : { kind: "invalid_date", at: start + fault, length: 2 };
}

function date(span: Span): LabelError | undefined {
  const dayAt = span.start + 4;
  if (numberAt(span.text, dayAt, dayAt + 2) > 0) return dateOrMonth(span);
  return { kind: "invalid_date", at: dayAt, length: 2 };
}

function longDate({ text, start }: Span): LabelError | undefined {
  const month = numberAt(text, start + 4, start + 6);
  if (month < 1 || month > 12) return { kind: "invalid_date", at: start + 4, length: 2 };
  const day = numberAt(text, start + 6, start + 8);
  if (day >= 1 && day <= daysInMonth(numberAt(text, start, start + 4), month)) return undefined;
  return { kind: "invalid_date", at: start + 6, length: 2 };
}

function hour({ text, start }: Span): LabelError | undefined {
  if (numberAt(text, start, start + 2) <= 23) return undefined;
  return { kind: "invalid_time", at: start, length: 2 };
}

function minute({ text, start }: Span): LabelError | undefined {
  if (numberAt(text, start, start + 2) <= 59) return undefined;
  return { kind: "invalid_time", at: start, length: 2 };
}

function time(span: Span): LabelError | undefined {
  const fault = hour(span);
  if (fault !== undefined) return fault;
  return minute({ ...span, start: span.start + 2 });
}

function country({ text, start, end }: Span): LabelError | undefined {
  if (countryNumbers.has(text.slice(start, end))) return undefined;
  return broken("country", start, end - start);
}

function countryOr999(span: Span): LabelError | undefined {
  return span.text.startsWith("999", span.start) ? undefined : country(span);
}

function countryLettersRule({ text, start }: Span): LabelError | undefined {
  if (countryLetters.has(text.slice(start, start + 2))) return undefined;
  return broken("country", start, 2);
}

/** Builds a rule that admits only the characters listed, for a component of one character. */
function oneOf(characters: string): ContentRule {
  return ({ text, start, end }) => {
    if (characters.includes(text.slice(start, end))) return undefined;
    return broken("choice", start, end - start);
  };
}

function zero({ text, start }: Span): LabelError | undefined {
  return text.charAt(start) === "0" ? undefined : broken("zero", start, 1);
}

function nonZero({ text, start, end }: Span): LabelError | undefined {
  return numberAt(text, start, end) > 0 ? undefined : broken("zero", start, end - start);
}

function noLeadingZero({ text, start, end }: Span): LabelError | undefined {
  if (end - start === 1 || text.charAt(start) !== "0") return undefined;
  return broken("leading_zero", start, 1);
}

function someNonDigit({ text, start, end }: Span): LabelError | undefined {
  if (firstOutside(text, start, end, DIGITS) !== -1) return undefined;
  return broken("non_digit_required", start, end - start);
}

function pieceOfTotal({ text, start, end }: Span): LabelError | undefined {
  const piece = numberAt(text, start, start + 2);
  if (piece >= 1 && piece <= numberAt(text, start + 2, end)) return undefined;
  return broken("piece_of_total", start, end - start);
}

function birthSequence({ text, start, end }: Span): LabelError | undefined {
  const [, position = "", total = ""] = /^([1-9])\/([1-9])$/.exec(text.slice(start, end)) ?? [];
  if (position !== "" && position <= total) return undefined;
  return broken("sequence", start, end - start);
}

function percentEncoded({ text, start, end }: Span): LabelError | undefined {
  for (let at = start; at < end; at += 1) {
    if (text.charCodeAt(at) !== PERCENT) continue;
    if (!/^[0-9A-Fa-f]{2}$/.test(text.slice(at + 1, Math.min(at + 3, end)))) {
      return broken("percent_encoding", at, Math.min(3, end - at));
    }
    at += 2;
  }
  return undefined;
}

/** Builds a rule for a coordinate in ten millionths of a degree, from 0 up to a limit. */
function coordinateUpTo(limit: number): ContentRule {
  return ({ text, start, end }) =>
    numberAt(text, start, end) <= limit ? undefined : broken("coordinate", start, end - start);
}

function mediaType({ text, start }: Span): LabelError | undefined {
  const type = numberAt(text, start, start + 2);
  return (type >= 1 && type <= 10) || type >= 80 ? undefined : broken("choice", start, 2);
}

function padding({ text, start, end }: Span): LabelError | undefined {
  const offset = text.slice(start, end).indexOf("=");
  if (offset === -1) return undefined;
  const first = start + offset;
  const count = end - first;
  if (text.slice(first, end) === "=".repeat(count) && count <= 2 && (end - start) % 3 === 0) {
    return undefined;
  }
  return broken("padding", first, count);
}

function iban(span: Span): LabelError | undefined {
  const { text, start, end } = span;
  const bad = firstOutside(text, start, end, ALPHANUMERIC);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  if (end - start < 5) return { kind: "value_too_short", at: start, length: end - start };
  const account = text.slice(start, end);
  const fault = countryLettersRule(span);
  if (fault !== undefined) return fault;
  let remainder = 0;
  for (const character of account.slice(4) + account.slice(0, 4)) {
    const value = parseInt(character, 36);
    remainder = (remainder * (value > 9 ? 100 : 10) + value) % 97;
  }
  return remainder === 1 ? undefined : { kind: "invalid_check_digit", at: start + 2, length: 2 };
}

/**
 * The content rules by the name under which the table of AIs calls them. Each answers undefined or
 * an error with the span at fault: `invalid_check_digit`, `invalid_check_character`,
 * `invalid_date`, `invalid_time`, `invalid_character`, or `invalid_structure` with the detail that
 * names the rule. Source: GS1 General Specifications 7.8 to 7.12 and the tests named in the GS1
 * Barcode Syntax Dictionary.
 */
export const contentRules: ReadonlyMap<string, ContentRule> = new Map<string, ContentRule>([
  ["check", checkDigit],
  ["checkPair", checkPair],
  ["companyPrefix", companyPrefix],
  ["date", date],
  ["dateOrMonth", dateOrMonth],
  ["longDate", longDate],
  ["hour", hour],
  ["minute", minute],
  ["second", minute],
  ["time", time],
  ["country", country],
  ["countryOr999", countryOr999],
  ["countryLetters", countryLettersRule],
  ["yesNo", oneOf("01")],
  ["sex", oneOf("0129")],
  ["winding", oneOf("019")],
  ["hyphen", oneOf("-")],
  ["importerIndex", oneOf("-0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz")],
  ["zero", zero],
  ["nonZero", nonZero],
  ["noLeadingZero", noLeadingZero],
  ["someNonDigit", someNonDigit],
  ["pieceOfTotal", pieceOfTotal],
  ["birthSequence", birthSequence],
  ["percentEncoded", percentEncoded],
  ["latitude", coordinateUpTo(1_800_000_000)],
  ["longitude", coordinateUpTo(3_600_000_000)],
  ["mediaType", mediaType],
  ["padding", padding],
  ["iban", iban],
]);
