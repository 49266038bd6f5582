/**
 * The short code on the practice's own label of a container: `C`, five characters, one check
 * character. Own scheme; the check is a weighted sum modulo a prime, as in ISBN-10.
 */

// No 0 beside O, and neither I nor L beside 1: of each such pair at most one is in use. U is left
// out because it is written like V. 31 is prime, which the check character relies on.
const alphabet = "123456789ABCDEFGHJKMNPQRSTVWXYZ";
const bodyLength = 5;
const codeLength = bodyLength + 2;

/** How many different codes there are; a counter runs from 0 to one less. */
export const containerCodeCount = alphabet.length ** bodyLength;

// Coprime to 31 and near the golden section of the count: bottles registered one after another,
// which stand side by side, get codes that differ in more than their last character.
const spread = 17_693_788;

/** What reading a container code gives: the code as stored, or that it is none. */
export type ContainerCodeReading = { ok: true; code: string } | { ok: false };

// Every place has its own weight: 6 down to 2, and 1 for the check character. Two codes that differ
// in one place, or by a swap of any two places, therefore never have the same sum modulo 31.
function computeCheckSum(values: readonly number[]): number {
  return values.reduce((sum, value, place) => sum + (bodyLength + 1 - place) * value, 0);
}

/**
 * The code for a counter of the practice, which must be a whole number from 0 to
 * `containerCodeCount` - 1; anything else throws a RangeError. Different counters give different
 * codes, and any single wrong character or swap of two neighbours makes a code that is refused.
 */
export function makeContainerCode(counter: number): string {
  if (!Number.isInteger(counter) || counter < 0 || counter >= containerCodeCount) {
    throw new RangeError(`no container code for ${counter}`);
  }
  let rest = (counter * spread) % containerCodeCount;
  const values: number[] = [];
  for (let place = 0; place < bodyLength; place += 1) {
    values.unshift(rest % alphabet.length);
    rest = Math.floor(rest / alphabet.length);
  }
  const sum = computeCheckSum(values) % alphabet.length;
  values.push((alphabet.length - sum) % alphabet.length);
  return `C${values.map((value) => alphabet.charAt(value)).join("")}`;
}

/**
 * Reads a code as a scanner or a person gives it: lower case, spaces and hyphens between do no
 * harm, and a typed I or L is the 1 it looks like. `{ ok: false }` for anything that is not a
 * container code or whose check character does not fit.
 */
export function readContainerCode(text: string): ContainerCodeReading {
  const code = text.replace(/[\s-]/g, "").toUpperCase().replace(/[IL]/g, "1");
  if (code.length !== codeLength || !code.startsWith("C")) return { ok: false };
  const values = Array.from(code.slice(1), (character) => alphabet.indexOf(character));
  if (values.includes(-1) || computeCheckSum(values) % alphabet.length !== 0) return { ok: false };
  return { ok: true, code };
}

/**
 * A container code grouped for people to read aloud, `CK7-QW4X`. A text of another length is given
 * back as it is.
 */
export function showContainerCode(code: string): string {
  return code.length === codeLength ? `${code.slice(0, 3)}-${code.slice(3)}` : code;
}
