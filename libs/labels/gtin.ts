import { DIGITS, firstOutside } from "./character-sets.ts";
import { isValidGtin } from "./check-digit.ts";
import type { LabelError } from "./result.ts";

/**
 * Answers the 14-digit GTIN of a retail or carton symbol or of bare digits, which fill `text` from
 * `start` to its end. `digits` is how many the symbol carries. Errors: `invalid_character`,
 * `value_too_short`, `value_too_long`, `invalid_check_digit`. Source: GS1 General Specifications
 * 3.3, 5.2 and 7.9.1.
 */
export function readGtin(text: string, start: number, digits: number): string | LabelError {
  const length = text.length - start;
  const bad = firstOutside(text, start, text.length, DIGITS);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  if (length < digits) return { kind: "value_too_short", at: start, length };
  if (length > digits) {
    return { kind: "value_too_long", at: start + digits, length: length - digits };
  }
  const gtin = text.slice(start);
  if (!isValidGtin(gtin)) return { kind: "invalid_check_digit", at: text.length - 1, length: 1 };
  return gtin.padStart(14, "0");
}
