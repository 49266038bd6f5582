/** A sheet of labels as it is typed: measures as text until each of them can be read. */
import type { SheetGeometry } from "#domain";
import { readLength, showLength, unitOfPage, type LengthUnit } from "./lengths.ts";

export const lengthFields = [
  "pageWidthUm",
  "pageHeightUm",
  "labelWidthUm",
  "labelHeightUm",
  "marginLeftUm",
  "marginTopUm",
  "pitchXUm",
  "pitchYUm",
] as const;
export type LengthName = (typeof lengthFields)[number];
export type CountName = "columns" | "rows";
/** So many labels across and down a sheet can have. */
export const mostOf = { columns: 50, rows: 100 } as const;

export interface SheetDraft {
  unit: LengthUnit;
  /** Each as typed, in the unit. */
  typed: Readonly<Record<LengthName | CountName, string>>;
}

export interface ReadDraft {
  /** Where every measure could be read. */
  shape: SheetGeometry | null;
  /** What could not be. */
  faulty: ReadonlySet<LengthName | CountName>;
}

export const pages = {
  a4: { pageWidthUm: 210_000, pageHeightUm: 297_000 },
  letter: { pageWidthUm: 215_900, pageHeightUm: 279_400 },
} as const;
export type PageName = keyof typeof pages | "other";

/** The name of a page by its size. */
export function nameOfPage(page: { pageWidthUm: number; pageHeightUm: number }): PageName {
  const names = Object.keys(pages) as (keyof typeof pages)[];
  const fits = (name: keyof typeof pages) =>
    pages[name].pageWidthUm === page.pageWidthUm && pages[name].pageHeightUm === page.pageHeightUm;
  return names.find(fits) ?? "other";
}

/** A sheet to be corrected, in the unit of its page unless said otherwise. */
export function draftOf(
  shape: SheetGeometry,
  language: "en" | "de",
  unit: LengthUnit = unitOfPage(shape.pageWidthUm),
): SheetDraft {
  const lengths = lengthFields.map((name) => [name, showLength(shape[name], unit, language)]);
  const counts = { columns: String(shape.columns), rows: String(shape.rows) };
  return { unit, typed: { ...Object.fromEntries(lengths), ...counts } as SheetDraft["typed"] };
}

// A margin may be nothing; all else is at least a millimetre.
const leastOf = (name: LengthName): number => (name.startsWith("margin") ? 0 : 1_000);
const mostUm = 1_000_000;

export function readDraft({ unit, typed }: SheetDraft): ReadDraft {
  const faulty = new Set<LengthName | CountName>();
  const numbers: Record<string, number> = {};
  for (const name of lengthFields) {
    const um = readLength(typed[name], unit);
    if (um === null || um < leastOf(name) || um > mostUm) faulty.add(name);
    else numbers[name] = um;
  }
  for (const name of ["columns", "rows"] as const) {
    const count = /^\d+$/.test(typed[name].trim()) ? Number(typed[name]) : 0;
    if (count < 1 || count > mostOf[name]) faulty.add(name);
    else numbers[name] = count;
  }
  return { shape: faulty.size === 0 ? (numbers as unknown as SheetGeometry) : null, faulty };
}
