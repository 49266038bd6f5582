/**
 * Tooth codes. Stored and computed with is always the two-digit code of ISO 3950 (FDI); the other
 * notations are for reading and showing. Eighteen bare codes are valid in both FDI and Universal
 * and always name different teeth, so nothing here guesses the notation of a text.
 */

/** Kinds of teeth, from the midline outwards within one dentition. */
export type ToothClass =
  | "central-incisor"
  | "lateral-incisor"
  | "canine"
  | "first-premolar"
  | "second-premolar"
  | "first-molar"
  | "second-molar"
  | "third-molar";

/** What a tooth code says; sides are the patient's own. */
export interface ToothDescription {
  fdi: string;
  dentition: "permanent" | "primary";
  arch: "upper" | "lower";
  side: "right" | "left";
  /** Counted from the midline: 1 to 8, in the primary dentition 1 to 5. */
  position: number;
  class: ToothClass;
  /** One too many: it stands beside the tooth that the rest describes. */
  supernumerary: boolean;
}

const permanentClasses: readonly ToothClass[] = [
  "central-incisor",
  "lateral-incisor",
  "canine",
  "first-premolar",
  "second-premolar",
  "first-molar",
  "second-molar",
  "third-molar",
];
const primaryClasses: readonly ToothClass[] = [
  "central-incisor",
  "lateral-incisor",
  "canine",
  "first-molar",
  "second-molar",
];

// ISO 3950 counts the quadrants clockwise as one faces the patient: upper right, upper left, lower
// left, lower right; 1 to 4 are the permanent dentition, 5 to 8 the primary.
const quadrants = [
  { arch: "upper", side: "right" },
  { arch: "upper", side: "left" },
  { arch: "lower", side: "left" },
  { arch: "lower", side: "right" },
] as const;

/**
 * Answers whether a text is a tooth code: 11–18, 21–28, 31–38, 41–48 permanent and 51–55, 61–65,
 * 71–75, 81–85 primary (ISO 3950, from memory); with an S behind it, a supernumerary tooth beside
 * that one. ISO 3950 has no code for those as far as known here: the S is taken over from the
 * Universal notation, which has AS to TS for the primary ones.
 */
export function isTooth(text: string): boolean {
  return /^(?:[1-4][1-8]|[5-8][1-5])S?$/.test(text);
}

/**
 * What a tooth code means, or `null` for a text that is none. Source: ISO 3950 (from memory).
 */
export function describeTooth(fdi: string): ToothDescription | null {
  if (!isTooth(fdi)) return null;
  const quadrant = Number(fdi.charAt(0));
  const position = Number(fdi.charAt(1));
  const primary = quadrant > 4;
  const where = quadrants[(quadrant - 1) % 4];
  const toothClass = (primary ? primaryClasses : permanentClasses)[position - 1];
  if (where === undefined || toothClass === undefined) return null;
  return {
    fdi,
    dentition: primary ? "primary" : "permanent",
    ...where,
    position,
    class: toothClass,
    supernumerary: fdi.length > 2,
  };
}

// Universal counts once round the mouth: from the upper right molar to the upper left, on to the
// lower left and back to the lower right. Written out by the rule, not by hand.
function listRound(quadrantNumbers: readonly number[], teeth: number): readonly string[] {
  const inwards = Array.from({ length: teeth }, (_, index) => teeth - index);
  const outwards = [...inwards].reverse();
  return quadrantNumbers.flatMap((quadrant, index) =>
    (index % 2 === 0 ? inwards : outwards).map((position) => `${quadrant}${position}`),
  );
}

const universalByFdi = new Map<string, string>([
  ...listRound([1, 2, 3, 4], 8).flatMap((fdi, index) => [
    [fdi, String(index + 1)] as const,
    [`${fdi}S`, String(index + 51)] as const,
  ]),
  ...listRound([5, 6, 7, 8], 5).flatMap((fdi, index) => {
    const letter = "ABCDEFGHIJKLMNOPQRST".charAt(index);
    return [[fdi, letter] as const, [`${fdi}S`, `${letter}S`] as const];
  }),
]);
const fdiByUniversal = new Map([...universalByFdi].map(([fdi, universal]) => [universal, fdi]));

/**
 * The code of a tooth in the Universal notation, or `null` for a text that is no tooth code: 1 to 32
 * or A to T, supernumerary 51 to 82 or AS to TS. Source: ADA Universal Tooth Designation System and
 * the ADA's convention for claims (both from memory).
 */
export function toUniversal(fdi: string): string | null {
  return universalByFdi.get(fdi) ?? null;
}

/**
 * The code of a tooth given in the Universal notation, in either case, or `null`. Source: as
 * `toUniversal`.
 */
export function fromUniversal(universal: string): string | null {
  return fdiByUniversal.get(universal.toUpperCase()) ?? null;
}

/**
 * The code of a tooth in the Palmer notation written in letters, such as `UR8` or, in the primary
 * dentition, `LLE`; `null` for a text that is no two-digit tooth code. Source: common practice, no
 * source for the letters in place of the drawn corner.
 */
export function toPalmer(fdi: string): string | null {
  const tooth = describeTooth(fdi);
  if (tooth === null) return null;
  const corner = (tooth.arch === "upper" ? "U" : "L") + (tooth.side === "right" ? "R" : "L");
  const place = tooth.dentition === "primary" ? "ABCDE".charAt(tooth.position - 1) : fdi[1];
  return `${corner}${place}${tooth.supernumerary ? "S" : ""}`;
}

const fdiByPalmer = new Map([...universalByFdi.keys()].map((fdi) => [toPalmer(fdi), fdi]));

/**
 * The two-digit code of a tooth given in the Palmer notation written in letters, in either case, or
 * `null`. Source: as `toPalmer`.
 */
export function fromPalmer(palmer: string): string | null {
  return fdiByPalmer.get(palmer.toUpperCase()) ?? null;
}

/** How a practice writes teeth. */
export const toothNotations = ["fdi", "universal", "palmer"] as const;
export type ToothNotation = (typeof toothNotations)[number];

/** A stored tooth in a notation; a text that is no tooth stays as it is. Source: as `toUniversal`. */
export function showToothIn(notation: ToothNotation, fdi: string): string {
  if (notation === "universal") return toUniversal(fdi) ?? fdi;
  return notation === "palmer" ? (toPalmer(fdi) ?? fdi) : fdi;
}

/** The tooth that a text in a notation names, in either case, or `null`. Source: as `toUniversal`. */
export function readToothIn(notation: ToothNotation, text: string): string | null {
  const code = text.trim().toUpperCase();
  if (notation === "universal") return fromUniversal(code);
  if (notation === "palmer") return fromPalmer(code);
  return isTooth(code) ? code : null;
}
