import type { SheetGeometry } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface SheetRow extends SheetGeometry {
  id: string;
  name: string;
}
type Measures = Omit<SheetRow, "id">;

const sheets = statement<SheetRow>(
  "list-label-sheets",
  `select id, name, page_width_um as "pageWidthUm", page_height_um as "pageHeightUm", columns, rows,
          label_width_um as "labelWidthUm", label_height_um as "labelHeightUm",
          margin_left_um as "marginLeftUm", margin_top_um as "marginTopUm",
          pitch_x_um as "pitchXUm", pitch_y_um as "pitchYUm"
   from label_sheet where practice_id = $1 and ($2::uuid is null or id = $2) order by name`,
);
export const listSheets = (tx: Tx) => tx.rows(sheets, [tx.actor.practiceId, null]);
export async function findSheet(tx: Tx, id: string): Promise<SheetRow | undefined> {
  return (await tx.rows(sheets, [tx.actor.practiceId, id]))[0];
}

const valuesOf = (one: Measures) => [
  one.name,
  one.pageWidthUm,
  one.pageHeightUm,
  one.columns,
  one.rows,
  one.labelWidthUm,
  one.labelHeightUm,
  one.marginLeftUm,
  one.marginTopUm,
  one.pitchXUm,
  one.pitchYUm,
];
const columns = `name, page_width_um, page_height_um, columns, rows, label_width_um,
  label_height_um, margin_left_um, margin_top_um, pitch_x_um, pitch_y_um`;
const places = "$3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13";

const sheetNew = statement(
  "insert-label-sheet",
  `insert into label_sheet (practice_id, id, ${columns}) values ($1, $2, ${places})`,
);
export const insertSheet = (tx: Tx, id: string, one: Measures) =>
  tx.rows(sheetNew, [tx.actor.practiceId, id, ...valuesOf(one)]);

const sheetChanged = statement<{ id: string }>(
  "update-label-sheet",
  `update label_sheet set (${columns}) = (${places}) where practice_id = $1 and id = $2
   returning id`,
);
/** Whether there was such a sheet. */
export async function updateSheet(tx: Tx, id: string, one: Measures): Promise<boolean> {
  return (await tx.rows(sheetChanged, [tx.actor.practiceId, id, ...valuesOf(one)])).length > 0;
}

const sheetGone = statement<{ name: string }>(
  "delete-label-sheet",
  "delete from label_sheet where practice_id = $1 and id = $2 returning name",
);
/** The name of the sheet that was removed. */
export async function deleteSheet(tx: Tx, id: string): Promise<string | undefined> {
  return (await tx.rows(sheetGone, [tx.actor.practiceId, id]))[0]?.name;
}
