/** Lengths on paper as people write them; kept in whole micrometres (1 in is 25,400 of them). */

export type LengthUnit = "mm" | "in";
const umOf: Readonly<Record<LengthUnit, number>> = { mm: 1_000, in: 25_400 };
// A micrometre is 0.001 mm and 0.00004 in: with so many places nothing is lost on the way.
const placesOf: Readonly<Record<LengthUnit, number>> = { mm: 3, in: 5 };

// 38.1, 38,1, .5, 5/8, 2 5/8 and 2-5/8: makers of label sheets write eighths of an inch.
const written = /^(?:(\d*[.,]?\d+)|(?:(\d+)[\s-]+)?(\d+)\/(\d+))$/;

/** Reads a length as typed; `null` where it is none. */
export function readLength(text: string, unit: LengthUnit): number | null {
  const parts = written.exec(text.trim());
  if (parts === null) return null;
  const [, decimal, whole = "0", upper, lower] = parts;
  const value =
    decimal === undefined
      ? Number(whole) + Number(upper) / Number(lower)
      : Number(decimal.replace(",", "."));
  return Number.isFinite(value) ? Math.round(value * umOf[unit]) : null;
}

/** A length as it is shown and typed again, with no more places than it has. */
export function showLength(um: number, unit: LengthUnit, language: "en" | "de"): string {
  const text = String(Number((um / umOf[unit]).toFixed(placesOf[unit])));
  return language === "de" ? text.replace(".", ",") : text;
}

/** What a page of that width is measured in: paper of North America in inches. */
export const unitOfPage = (pageWidthUm: number): LengthUnit =>
  pageWidthUm % (umOf.in / 8) === 0 ? "in" : "mm";
