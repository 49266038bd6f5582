import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { builtInSheets, checkSheet, type SheetFault } from "#domain";
import type { SheetInput, SheetView } from "#contracts/label-printing";
import { inCommand, inRead } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { SentFile } from "../http/file.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { getSheet } from "./get-sheet.ts";
import { drawSheetTest } from "./sheet-test.ts";
import * as store from "./sheets.store.ts";

@Injectable()
export class SheetsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listSheets(call: Call<"listSheets">): Promise<Answer<"listSheets">> {
    return inRead(this.db, call, async (tx) => ({
      sheets: [
        ...(await store.listSheets(tx)).map((sheet) => ({ ...sheet, builtIn: false })),
        ...builtInSheets.map((sheet) => ({ ...sheet, builtIn: true })),
      ],
    }));
  }

  addSheet(call: Call<"addSheet">): Promise<SheetView> {
    return inCommand(this.db, call, async (tx) => {
      refuseImpossible(call.body);
      const id = newId();
      await store.insertSheet(tx, id, call.body);
      tx.audit("sheet-added", `label-sheet:${id}`, call.body);
      return { id, builtIn: false, ...call.body };
    });
  }

  changeSheet(call: Call<"changeSheet">): Promise<SheetView> {
    const { sheetId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      refuseImpossible(call.body);
      if (!(await store.updateSheet(tx, id, call.body))) throw notFound("sheet");
      tx.audit("sheet-changed", `label-sheet:${id}`, call.body);
      return { id, builtIn: false, ...call.body };
    });
  }

  removeSheet(call: Call<"removeSheet">): Promise<Answer<"removeSheet">> {
    const { sheetId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const name = await store.deleteSheet(tx, id);
      if (name === undefined) throw notFound("sheet");
      tx.audit("sheet-removed", `label-sheet:${id}`, { name });
      return { done: true as const };
    });
  }

  async getSheetTest(call: Call<"getSheetTest">): Promise<SentFile> {
    const sheet = await inRead(this.db, call, (tx) => getSheet(tx, call.query.sheet));
    return drawSheetTest(sheet, { language: call.actor.language, at: call.at });
  }
}

const faults: Record<SheetFault, string> = {
  "too-many": "A sheet has at most 500 labels. Count its columns and rows again.",
  overlapping:
    "The labels would overlap: from one left or upper edge to the next is less than a label's " +
    "width or height. Measure it again.",
  "off-page":
    "The last column or row would leave the page. Measure the margins and the labels again.",
};

function refuseImpossible(sheet: SheetInput): void {
  const fault = checkSheet(sheet);
  if (fault) throw new Problem("sheet-impossible", faults[fault], { fault });
}
