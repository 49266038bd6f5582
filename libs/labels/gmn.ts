import { SET_82_IN_ORDER } from "./character-sets.ts";

const CHECK_ALPHABET = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";

/** One prime for each character that a model number may have before its check pair. */
const WEIGHTS = [
  2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83,
] as const;

/**
 * Answers the two check characters that belong after `text`, a global model number (Basic UDI-DI)
 * or master UDI-DI without its check pair: at most 23 characters of character set 82. Answers
 * undefined for anything else. From the right, the characters' values are weighted by 2, 3, 5, 7,
 * 11 and so on; the sum modulo 1021 gives two characters of a 32-letter alphabet. Source: GS1
 * General Specifications 7.9.5.
 */
export function gmnCheckPair(text: string): string | undefined {
  if (text.length > WEIGHTS.length) return undefined;
  let sum = 0;
  for (let index = 0; index < text.length; index += 1) {
    const value = SET_82_IN_ORDER.indexOf(text.charAt(index));
    if (value === -1) return undefined;
    sum += value * (WEIGHTS[text.length - 1 - index] ?? 0);
  }
  const remainder = sum % 1021;
  return CHECK_ALPHABET.charAt(remainder >> 5) + CHECK_ALPHABET.charAt(remainder & 31);
}
