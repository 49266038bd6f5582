import { DIGITS, firstOutside } from "./character-sets.ts";

/** Weighted sum of the digits from `start` up to `end`; the last has weight 3, then 1, 3, ... */
function weightedSum(text: string, start: number, end: number): number {
  let sum = 0;
  let weight = 3;
  for (let index = end - 1; index >= start; index -= 1) {
    sum += (text.charCodeAt(index) - 48) * weight;
    weight = 4 - weight;
  }
  return sum;
}

/**
 * Answers the check digit, 0 to 9, that belongs after `digits`: a GTIN, SSCC, GLN or other GS1 key
 * without its last digit, of any length. Answers NaN when `digits` is empty or holds anything but
 * digits. Source: GS1 General Specifications 7.9.1.
 */
export function gtinCheckDigit(digits: string): number {
  if (digits === "" || firstOutside(digits, 0, digits.length, DIGITS) !== -1) return NaN;
  return (10 - (weightedSum(digits, 0, digits.length) % 10)) % 10;
}

/**
 * Answers whether the last of the digits from `start` up to `end` is the check digit of those
 * before it. Everything in that span must be a digit. Source: GS1 General Specifications 7.9.1.
 */
export function endsInCheckDigit(text: string, start: number, end: number): boolean {
  const expected = (10 - (weightedSum(text, start, end - 1) % 10)) % 10;
  return text.charCodeAt(end - 1) - 48 === expected;
}

/**
 * Answers whether `text` is a GTIN: 8, 12, 13 or 14 digits of which the last is the right check
 * digit. Source: GS1 General Specifications 3.3 and 7.9.1.
 */
export function isValidGtin(text: string): boolean {
  const { length } = text;
  if (length !== 8 && length !== 12 && length !== 13 && length !== 14) return false;
  return firstOutside(text, 0, length, DIGITS) === -1 && endsInCheckDigit(text, 0, length);
}

/**
 * Answers a GTIN in its 14-digit form, filled with zeros on the left, which leaves the check digit
 * unchanged. `text` is a GTIN of 8, 12, 13 or 14 digits; anything else, a wrong check digit
 * included, answers undefined. Source: GS1 General Specifications 3.3.
 */
export function toGtin14(text: string): string | undefined {
  return isValidGtin(text) ? text.padStart(14, "0") : undefined;
}
