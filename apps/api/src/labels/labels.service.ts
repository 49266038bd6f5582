import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { makeOwnCode } from "#domain";
import type { LabelRunView } from "#contracts/label-printing";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { SentFile } from "../http/file.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound } from "../http/problem.ts";
import { takeContainerNumbers } from "../receiving/receiving.store.ts";
import { getSheet } from "./get-sheet.ts";
import { contentsOf, readContents } from "./label-content.ts";
import { drawDocument, drawPreview } from "./label-document.ts";
import * as store from "./labels.store.ts";
import { drawScannerSheet } from "./scanner-sheet.ts";

/** Who asks, and when: all that a command line has of a request. */
type Told<N extends "makeLabels" | "getLabelDocument", K extends keyof Call<N>> = Pick<
  Call<N>,
  "actor" | "at" | K
>;

@Injectable()
export class LabelsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  makeLabels(
    call: Told<"makeLabels", "body"> & { submission: Call<"makeLabels">["submission"] | null },
  ): Promise<LabelRunView> {
    const { subjects, copies, reprintOf = null } = call.body;
    return inCommand(this.db, call, async (tx) => {
      if (reprintOf !== null && !(await store.findRun(tx, reprintOf))) throw notFound("label run");
      for (const kind of ["location", "tray"] as const) {
        const wanted = subjects.filter((each) => each.kind === kind).map(({ id }) => id);
        if (wanted.length > 0) await giveCodes(tx, kind, wanted);
      }
      const id = newId();
      await store.insertRun(tx, { id, copies, reprintOf });
      await store.insertSubjects(tx, id, subjects);
      const action = reprintOf === null ? "labels-made" : "labels-made-again";
      tx.audit(action, `label-run:${id}`, { subjects, copies, reprintOf });
      return readRun(tx, id);
    });
  }

  listLabelRuns(call: Call<"listLabelRuns">): Promise<Answer<"listLabelRuns">> {
    return inRead(this.db, call, async (tx) => ({
      runs: (await store.listRuns(tx)).map((row) => ({ ...runHead(row), labels: row.labels })),
    }));
  }

  getLabelRun(call: Call<"getLabelRun">): Promise<LabelRunView> {
    return inRead(this.db, call, (tx) => readRun(tx, call.params.runId));
  }

  async getLabelDocument(call: Told<"getLabelDocument", "params" | "query">): Promise<SentFile> {
    const { query } = call;
    const { run, sheet } = await inRead(this.db, call, async (tx) => ({
      run: await readRun(tx, call.params.runId),
      sheet: query.format === "sheet" ? await getSheet(tx, query.sheet) : undefined,
    }));
    return drawDocument(run, { query, sheet, language: call.actor.language, at: call.at });
  }

  async previewLabel(call: Call<"previewLabel">): Promise<SentFile> {
    const { kind, id } = call.query;
    const [content] = await inRead(this.db, call, (tx) => contentsOf(tx, [{ kind, id }]));
    if (!content) throw notFound("label");
    return drawPreview(content, call.query, call.actor.language);
  }

  getScannerSheet(call: Call<"getScannerSheet">): Promise<SentFile> {
    return drawScannerSheet(call.query.symbol, { language: call.actor.language, at: call.at });
  }
}

const runHead = (row: store.RunRow) => ({
  id: row.id,
  madeAt: row.made_at.toISOString(),
  madeBy: row.made_by,
  copies: row.copies,
  reprintOf: row.reprint_of,
});

async function readRun(tx: Tx, id: string): Promise<LabelRunView> {
  const row = await store.findRun(tx, id);
  if (!row) throw notFound("label run");
  return { ...runHead(row), labels: await readContents(tx, id) };
}

/** A place or a tray gets its code with its first label, and keeps it. */
async function giveCodes(tx: Tx, kind: "location" | "tray", ids: readonly string[]) {
  const found = await store.listCodes(tx, kind, ids);
  const known = new Set(found.map(({ id }) => id));
  if (ids.some((id) => !known.has(id))) throw notFound(kind === "location" ? "place" : "tray");
  const without = found.filter(({ code }) => code === null);
  if (without.length === 0) return;
  const first = await takeContainerNumbers(tx, without.length);
  const coded = without.map(({ id }, index) => ({ id, code: makeOwnCode(kind, first + index) }));
  await store.giveCodes(tx, kind, coded);
}
