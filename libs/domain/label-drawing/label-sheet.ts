/** Sheets of labels for office printers: where each label lies. Lengths are whole micrometres. */

/** A page with labels in columns and rows; a pitch leads from one edge to the next such edge. */
export interface SheetGeometry {
  pageWidthUm: number;
  pageHeightUm: number;
  columns: number;
  rows: number;
  labelWidthUm: number;
  labelHeightUm: number;
  marginLeftUm: number;
  marginTopUm: number;
  pitchXUm: number;
  pitchYUm: number;
}

/** A sheet with the name by which it is asked for. */
export interface BuiltInSheet extends SheetGeometry {
  id: string;
  name: string;
}

const a4 = { pageWidthUm: 210_000, pageHeightUm: 297_000 };
const letter = { pageWidthUm: 215_900, pageHeightUm: 279_400 };

/** Labels in the middle of the page, `gapUm` apart from left to right, none from row to row. */
function centred(
  page: typeof a4,
  [columns, rows]: readonly [number, number],
  label: { widthUm: number; heightUm: number; gapUm: number },
): SheetGeometry {
  const pitchXUm = label.widthUm + label.gapUm;
  const spareX = page.pageWidthUm - (columns - 1) * pitchXUm - label.widthUm;
  const spareY = page.pageHeightUm - rows * label.heightUm;
  return {
    ...page,
    columns,
    rows,
    labelWidthUm: label.widthUm,
    labelHeightUm: label.heightUm,
    marginLeftUm: Math.round(spareX / 2),
    marginTopUm: Math.round(spareY / 2),
    pitchXUm,
    pitchYUm: label.heightUm,
  };
}

/**
 * Sheets that need not be measured first, named by their geometry alone. Common practice, no
 * source: the alignment page shows whether a sheet at hand is one of them.
 */
export const builtInSheets: readonly BuiltInSheet[] = [
  {
    id: "a4-5x13",
    name: "A4, 5 × 13, 38.1 × 21.2 mm",
    ...centred(a4, [5, 13], { widthUm: 38_100, heightUm: 21_200, gapUm: 2_500 }),
  },
  {
    id: "a4-7x27",
    name: "A4, 7 × 27, 25.4 × 10 mm",
    ...centred(a4, [7, 27], { widthUm: 25_400, heightUm: 10_000, gapUm: 2_500 }),
  },
  {
    id: "a4-3x8",
    name: "A4, 3 × 8, 70 × 37 mm",
    ...centred(a4, [3, 8], { widthUm: 70_000, heightUm: 37_000, gapUm: 0 }),
  },
  {
    id: "letter-4x20",
    name: "Letter, 4 × 20, 1.75 × 0.5 in",
    ...centred(letter, [4, 20], { widthUm: 44_450, heightUm: 12_700, gapUm: 7_620 }),
  },
  {
    id: "letter-3x10",
    name: "Letter, 3 × 10, 2.625 × 1 in",
    ...centred(letter, [3, 10], { widthUm: 66_675, heightUm: 25_400, gapUm: 3_175 }),
  },
];

/** Why labels cannot lie on a sheet like that. */
export type SheetFault = "too-many" | "overlapping" | "off-page";

/** The most labels that one sheet may have. */
export const mostLabelsOnSheet = 500;

/**
 * What is wrong with a geometry: more than `mostLabelsOnSheet` labels, labels that overlap, labels
 * that leave the page. Undefined where nothing is. The database refuses the same.
 */
export function checkSheet(sheet: SheetGeometry): SheetFault | undefined {
  const { columns, rows, labelWidthUm, labelHeightUm, pitchXUm, pitchYUm } = sheet;
  if (columns * rows > mostLabelsOnSheet) return "too-many";
  if (columns > 1 && pitchXUm < labelWidthUm) return "overlapping";
  if (rows > 1 && pitchYUm < labelHeightUm) return "overlapping";
  const right = sheet.marginLeftUm + (columns - 1) * pitchXUm + labelWidthUm;
  const bottom = sheet.marginTopUm + (rows - 1) * pitchYUm + labelHeightUm;
  return right > sheet.pageWidthUm || bottom > sheet.pageHeightUm ? "off-page" : undefined;
}

/**
 * Where the label number `index` lies, counted from 0 along the rows and over all pages: its page,
 * from 0, and its upper left corner.
 */
export function placeOnSheet(
  sheet: SheetGeometry,
  index: number,
): { page: number; xUm: number; yUm: number } {
  const onPage = index % (sheet.columns * sheet.rows);
  const [row, column] = [Math.floor(onPage / sheet.columns), onPage % sheet.columns];
  return {
    page: Math.floor(index / (sheet.columns * sheet.rows)),
    xUm: sheet.marginLeftUm + column * sheet.pitchXUm,
    yUm: sheet.marginTopUm + row * sheet.pitchYUm,
  };
}
