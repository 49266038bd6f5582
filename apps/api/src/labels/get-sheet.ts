import { builtInSheets, type SheetGeometry } from "#domain";
import type { Tx } from "../db/transaction.ts";
import { notFound, Problem } from "../http/problem.ts";
import { findSheet } from "./sheets.store.ts";

const uuid = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/** A sheet that is built in, by its name, or one of the practice, by its id. */
export async function getSheet(
  tx: Tx,
  id: string | undefined,
): Promise<SheetGeometry & { name: string }> {
  if (id === undefined) {
    throw new Problem("invalid-request", "Say which sheet the labels are to be printed on.", {
      errors: [{ path: "/query/sheet", message: "needed where the format is a sheet" }],
    });
  }
  const builtIn = builtInSheets.find((each) => each.id === id);
  const sheet = builtIn ?? (uuid.test(id) ? await findSheet(tx, id) : undefined);
  if (!sheet) throw notFound("sheet");
  return sheet;
}
