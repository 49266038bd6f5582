/**
 * The short codes on the practice's own labels: a letter for the kind (`C` a container, `L` a
 * location, `T` a tray), five characters, one check character. Own scheme; the check is a weighted
 * sum modulo a prime, as in ISBN-10. In a symbol a code stands alone behind an application
 * identifier for company-internal information (GS1 General Specifications, AIs 91 to 99).
 */

/** What a code of ours names. */
export type OwnKind = "container" | "location" | "tray";

/** A code of ours as it is stored, such as `CK7QW4X`, and what it names. */
export interface OwnCode {
  kind: OwnKind;
  code: string;
}

// The offset of a kind is part of its check sum: a wrong first letter is refused as any other.
const kinds: Record<OwnKind, { letter: string; ai: string; offset: number }> = {
  container: { letter: "C", ai: "91", offset: 0 },
  location: { letter: "L", ai: "92", offset: 1 },
  tray: { letter: "T", ai: "93", offset: 2 },
};

// No 0 beside O, and neither I nor L beside 1: of each such pair at most one is in use. U is left
// out because it is written like V. 31 is prime, which the check character relies on.
const alphabet = "123456789ABCDEFGHJKMNPQRSTVWXYZ";
const bodyLength = 5;
const codeLength = bodyLength + 2;

/** How many different codes there are of one kind; a counter runs from 0 to one less. */
export const ownCodeCount = alphabet.length ** bodyLength;

// Coprime to 31 and near the golden section of the count: bottles registered one after another,
// which stand side by side, get codes that differ in more than their last character.
const spread = 17_693_788;

// Every place has its own weight: 6 down to 2, and 1 for the check character. Two codes that differ
// in one place, or by a swap of any two places, therefore never have the same sum modulo 31.
function computeCheckSum(values: readonly number[]): number {
  return values.reduce((sum, value, place) => sum + (bodyLength + 1 - place) * value, 0);
}

/**
 * The code of a kind for a counter of the practice, which must be a whole number from 0 to
 * `ownCodeCount` - 1; anything else throws a RangeError. Different counters give different codes,
 * and any single wrong character or swap of two neighbours makes a code that is refused.
 */
export function makeOwnCode(kind: OwnKind, counter: number): string {
  if (!Number.isInteger(counter) || counter < 0 || counter >= ownCodeCount) {
    throw new RangeError(`no code of a ${kind} for ${counter}`);
  }
  const { letter, offset } = kinds[kind];
  let rest = (counter * spread) % ownCodeCount;
  const values: number[] = [];
  for (let place = 0; place < bodyLength; place += 1) {
    values.unshift(rest % alphabet.length);
    rest = Math.floor(rest / alphabet.length);
  }
  const sum = (computeCheckSum(values) + offset) % alphabet.length;
  values.push((alphabet.length - sum) % alphabet.length);
  return `${letter}${values.map((value) => alphabet.charAt(value)).join("")}`;
}

/** How a scanner sends FNC1, which a GS1 symbol begins with and some end with. */
const separator = "\u001d";

// A symbology identifier (ISO/IEC 15424), a separator, and the application identifier as in an
// element string or as a person reads it, (91).
const wrapping = new RegExp(
  `^(?:\\][A-Za-z][0-9A-Za-z])?${separator}?(?:\\((\\d\\d)\\)|(9[1-3])(?=[CLTclt]))?`,
);

/**
 * Reads a code of ours as a scanner or a person gives it: typed (lower case, spaces and hyphens
 * between do no harm, and a typed I or L is the 1 it looks like), behind a symbology identifier, or
 * as the element string of its symbol with that one application identifier. Undefined for anything
 * else: a code whose check character does not fit, an application identifier that is not the one of
 * its kind, an element string that says more.
 */
export function readOwnCode(text: string): OwnCode | undefined {
  const [wrapped, ...identifiers] = wrapping.exec(text)!;
  const ai = identifiers.find((each) => each !== undefined);
  const plain = text.slice(wrapped.length).replace(new RegExp(`${separator}$`), "");
  const upper = plain.replace(/[\s-]/g, "").toUpperCase();
  if (upper.length !== codeLength) return undefined;
  for (const [kind, form] of Object.entries(kinds) as [OwnKind, (typeof kinds)[OwnKind]][]) {
    if (!upper.startsWith(form.letter)) continue;
    if (ai !== undefined && ai !== form.ai) return undefined;
    const body = upper.slice(1).replace(/[IL]/g, "1");
    const values = Array.from(body, (character) => alphabet.indexOf(character));
    const sum = computeCheckSum(values) + form.offset;
    if (values.includes(-1) || sum % alphabet.length !== 0) return undefined;
    return { kind, code: `${form.letter}${body}` };
  }
  return undefined;
}

/**
 * What the symbol of a code holds: one element, its application identifier and the code. Takes a
 * code as `makeOwnCode` gives it; throws a RangeError for any other text.
 */
export function ownElement(code: string): { ai: string; value: string } {
  const read = readOwnCode(code);
  if (read?.code !== code) throw new RangeError(`${code} is no code of ours`);
  return { ai: kinds[read.kind].ai, value: code };
}

/**
 * A code grouped for people to read aloud, `CK7-QW4X`. A text of another length is given back as it
 * is.
 */
export function showOwnCode(code: string): string {
  return code.length === codeLength ? `${code.slice(0, 3)}-${code.slice(3)}` : code;
}
