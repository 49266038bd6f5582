/** The labels of a sheet: which is under a finger, which is free next, and what is amiss. */
import { mostLabelsOnSheet, placeOnSheet, type SheetGeometry } from "#domain";

export const countPlaces = ({ columns, rows }: Pick<SheetGeometry, "columns" | "rows">): number =>
  columns * rows;

export interface Point {
  xUm: number;
  yUm: number;
}

/** The upper left corner of each label, along the rows. */
export const listCorners = (sheet: SheetGeometry): Point[] =>
  Array.from({ length: countPlaces(sheet) }, (_, index) => placeOnSheet(sheet, index));

/** The number of the label at a point of the page, counted from 1; the nearest between two. */
export function placeAt(sheet: SheetGeometry, { xUm, yUm }: Point): number {
  const nearest = (at: number, pitch: number, count: number): number =>
    Math.min(Math.max(Math.floor(at / pitch), 0), count - 1);
  // Half of what is between two labels belongs to each.
  const gapX = (sheet.pitchXUm - sheet.labelWidthUm) / 2;
  const gapY = (sheet.pitchYUm - sheet.labelHeightUm) / 2;
  const column = nearest(xUm - sheet.marginLeftUm + gapX, sheet.pitchXUm, sheet.columns);
  const row = nearest(yUm - sheet.marginTopUm + gapY, sheet.pitchYUm, sheet.rows);
  return row * sheet.columns + column + 1;
}

export interface SheetPlan {
  sheets: number;
  /** The first free label of the last sheet; 1 where none of it is left. */
  nextFree: number;
}

/** How far so many labels get from the first free one of a sheet. */
export function planSheets(count: number, startAt: number, places: number): SheetPlan {
  const last = startAt - 1 + count;
  return { sheets: Math.ceil(last / places), nextFree: (last % places) + 1 };
}

/** The first free label as it was kept, where the sheet has that one. */
export const fitStart = (kept: number, places: number): number =>
  Number.isInteger(kept) && kept >= 1 && kept <= places ? kept : 1;

/** What is wrong with a sheet, and by how much. */
export interface MeasuredFault {
  kind: "overlap-x" | "overlap-y" | "beyond-right" | "beyond-bottom" | "too-many";
  /** Micrometres, or labels where there are too many. */
  by: number;
}

/** All that `checkSheet` of the domain would refuse, each with the measure that is missing. */
export function measureFaults(sheet: SheetGeometry): MeasuredFault[] {
  const { columns, rows, labelWidthUm, labelHeightUm, pitchXUm, pitchYUm } = sheet;
  const right = sheet.marginLeftUm + (columns - 1) * pitchXUm + labelWidthUm;
  const bottom = sheet.marginTopUm + (rows - 1) * pitchYUm + labelHeightUm;
  const faults: MeasuredFault[] = [
    { kind: "too-many", by: columns * rows - mostLabelsOnSheet },
    { kind: "overlap-x", by: columns > 1 ? labelWidthUm - pitchXUm : 0 },
    { kind: "overlap-y", by: rows > 1 ? labelHeightUm - pitchYUm : 0 },
    { kind: "beyond-right", by: right - sheet.pageWidthUm },
    { kind: "beyond-bottom", by: bottom - sheet.pageHeightUm },
  ];
  return faults.filter(({ by }) => by > 0);
}
