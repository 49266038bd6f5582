/** The ten digits. */
export const DIGITS = 1;
/** GS1 AI encodable character set 82 (GS1 General Specifications 7.11, Figure 7.11-1). */
export const SET_82 = 2;
/** GS1 AI encodable character set 39 (GS1 General Specifications 7.11, Figure 7.11-2). */
export const SET_39 = 4;
/** File-safe base64 with its padding, for the digital signature (RFC 4648 section 5). */
export const BASE_64 = 8;
/** The 43 characters of HIBC and of Code 39 (ANSI/HIBC 2.6 appendix B). */
export const HIBC_CHARACTERS = 16;
/** Upper-case letters and digits. */
export const ALPHANUMERIC = 32;
/** Characters that a URI may contain (RFC 3986 section 2). */
export const URI_CHARACTERS = 64;
/** Characters of host and port in a URI, bracketed addresses included (RFC 3986 section 3.2). */
export const HOST_CHARACTERS = 128;

const DIGIT_TEXT = "0123456789";
const UPPER_TEXT = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const LETTER_TEXT = UPPER_TEXT + UPPER_TEXT.toLowerCase();

/** Character set 82 in the order of its values, from 0. */
export const SET_82_IN_ORDER =
  "!\"%&'()*+,-./" + DIGIT_TEXT + ":;<=>?" + UPPER_TEXT + "_" + UPPER_TEXT.toLowerCase();

/** The characters of HIBC in the order of their values, from 0. */
export const HIBC_IN_ORDER = DIGIT_TEXT + UPPER_TEXT + "-. $/+%";

const membership = new Uint8Array(128);

function admit(characters: string, set: number): void {
  for (let index = 0; index < characters.length; index += 1) {
    const unit = characters.charCodeAt(index);
    membership[unit] = (membership[unit] ?? 0) | set;
  }
}

admit(DIGIT_TEXT, DIGITS);
admit(SET_82_IN_ORDER, SET_82);
admit("#-/" + DIGIT_TEXT + UPPER_TEXT, SET_39);
admit("-_=" + DIGIT_TEXT + LETTER_TEXT, BASE_64);
admit(HIBC_IN_ORDER, HIBC_CHARACTERS);
admit(DIGIT_TEXT + UPPER_TEXT, ALPHANUMERIC);
admit("-._~:/?#[]@!$&'()*+,;=%" + DIGIT_TEXT + LETTER_TEXT, URI_CHARACTERS);
admit("-.:[]" + DIGIT_TEXT + LETTER_TEXT, HOST_CHARACTERS);

/**
 * Answers where the first character outside a set stands in `text` from `start` up to `end`, or -1
 * when all belong to it. `set` is one of the constants of this file.
 */
export function firstOutside(text: string, start: number, end: number, set: number): number {
  for (let index = start; index < end; index += 1) {
    const unit = text.charCodeAt(index);
    if (unit > 127 || ((membership[unit] ?? 0) & set) === 0) return index;
  }
  return -1;
}

/** Answers whether the character at `index` belongs to a set; false beyond the end. */
export function belongs(text: string, index: number, set: number): boolean {
  return index < text.length && firstOutside(text, index, index + 1, set) === -1;
}

/** Answers the number written in `text` from `start` up to `end`, which must all be digits. */
export function numberAt(text: string, start: number, end: number): number {
  let value = 0;
  for (let index = start; index < end; index += 1) value = value * 10 + text.charCodeAt(index) - 48;
  return value;
}
