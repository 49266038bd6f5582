import { writeFile } from "node:fs/promises";
import { builtInSheets } from "#domain";
import { Id } from "#contracts/common";
import { LabelDocumentQuery, MakeLabels, type LabelSubject } from "#contracts/label-printing";
import { inRead, type Tx } from "../../api/src/db/transaction.ts";
import { Problem } from "../../api/src/http/problem.ts";
import { LabelsService } from "../../api/src/labels/labels.service.ts";
import { findPlacesByName } from "../../api/src/labels/labels.store.ts";
import { listLines } from "../../api/src/receiving/receiving.store.ts";
import { readScan } from "../../api/src/stock/reading.ts";
import { findContainerByCode } from "../../api/src/stock/stock.store.ts";
import { choosePractice, onDatabase } from "./on-database.ts";
import { Refused } from "./usage.ts";

interface LabelsOptions {
  container?: string[];
  delivery?: string;
  location?: string[];
  tray?: string[];
  format: string;
  out: string;
  size: string;
  sheet?: string;
  startAt: string;
  copies: string;
  dpi: string;
  practice?: string;
}

export async function labels(told: LabelsOptions): Promise<void> {
  const { format, size, sheet, startAt, dpi: dotsPerInch } = told;
  const query = LabelDocumentQuery.safeParse({ format, size, sheet, startAt, dotsPerInch });
  if (!query.success) throw wrongOption(query.error);
  if (format === "sheet" && sheet === undefined) {
    throw new Refused(`Say --sheet with one of\n${sayBuiltInSheets()}or the id of one's own.`);
  }
  const written = await onDatabase(async ({ db, ownerUrl }) => {
    const { actor } = await choosePractice(ownerUrl, told.practice);
    const who = { actor, at: new Date() };
    const subjects = await inRead(db, who, (tx) => findSubjects(tx, told));
    const body = MakeLabels.safeParse({ subjects, copies: Number(told.copies) });
    if (subjects.length === 0) {
      throw new Refused("Say what labels are for: --container, --delivery, --location or --tray.");
    }
    if (!body.success) throw wrongOption(body.error);
    if (["svg", "png"].includes(format) && subjects.length > 1) {
      throw new Refused(`A file of the format ${format} holds one label. Ask for one at a time.`);
    }
    const service = new LabelsService(db);
    const run = await service.makeLabels({ ...who, submission: null, body: body.data });
    const params = { runId: run.id };
    const file = await service.getLabelDocument({ ...who, params, query: query.data });
    await writeFile(told.out, file.bytes).catch((error: Error) => {
      throw new Refused(`${told.out} cannot be written: ${error.message}`);
    });
    return run.labels.length * run.copies;
  }).catch((error: unknown) => {
    throw error instanceof Problem ? new Refused(error.message) : error;
  });
  process.stdout.write(`${written} ${written === 1 ? "label" : "labels"} in ${told.out}\n`);
}

export const sayBuiltInSheets = (): string =>
  builtInSheets.map(({ id, name }) => `  ${id.padEnd(13)}${name}\n`).join("");

function wrongOption({ issues }: { issues: readonly { path: PropertyKey[]; message: string }[] }) {
  const { path, message } = issues[0]!;
  return new Refused(`${path.map(String).join(" ")}: ${message}.`);
}

async function findSubjects(tx: Tx, told: LabelsOptions): Promise<LabelSubject[]> {
  const subjects: LabelSubject[] = [];
  for (const text of told.container ?? []) {
    const scan = readScan(tx, { barcodes: [text] });
    const found = scan.type === "code" ? await findContainerByCode(tx, scan.code) : undefined;
    if (!found) throw new Refused(`${text} is the code of no container here.`);
    subjects.push({ kind: "container", id: found.id });
  }
  if (told.delivery !== undefined) {
    const isId = Id.safeParse(told.delivery).success;
    const lines = isId ? await listLines(tx, told.delivery) : [];
    if (lines.length === 0) throw new Refused("There is no such delivery, or nothing is in it.");
    const containers = lines.flatMap((line) => line.containers);
    subjects.push(...containers.map(({ id }) => ({ kind: "container" as const, id })));
  }
  for (const name of told.location ?? []) {
    const [place] = await findPlacesByName(tx, name);
    if (!place) throw new Refused(`There is no place '${name}' here.`);
    subjects.push({ kind: "location", id: place.id });
  }
  return [...subjects, ...(told.tray ?? []).map((id) => ({ kind: "tray" as const, id }))];
}
