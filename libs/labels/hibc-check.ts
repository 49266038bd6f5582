import { HIBC_IN_ORDER } from "./character-sets.ts";

/**
 * Answers the HIBC check character for `data`, everything before the check character with the
 * leading plus sign: the sum of the characters' values modulo 43. Answers undefined when `data`
 * holds a character that HIBC does not know, lower-case letters among them. The plain sum does not
 * see characters that changed places. Source: ANSI/HIBC 2.6-2016 appendix B.
 */
export function hibcCheckCharacter(data: string): string | undefined {
  let sum = 0;
  for (let index = 0; index < data.length; index += 1) {
    const value = HIBC_IN_ORDER.indexOf(data.charAt(index));
    if (value === -1) return undefined;
    sum += value;
  }
  return HIBC_IN_ORDER.charAt(sum % 43);
}
