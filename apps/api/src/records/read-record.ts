import { fillStep, listStepsFor, type TechniqueStep } from "#domain";
import type { Tx } from "../db/transaction.ts";
import { loadTray, type LoadedTray } from "../trays/tray-facts.store.ts";
import { findLinked, type LinkedRow } from "./linked.store.ts";
import * as store from "./records.store.ts";

/** A record with all that was written to it; while it is a draft, checked anew. */
export interface ReadRecord {
  record: store.RecordRow;
  tray: LoadedTray;
  events: store.EventRow[];
  materials: store.MaterialRow[];
  versions: store.VersionRow[];
  linked: LinkedRow;
}

export async function readRecord(tx: Tx, record: store.RecordRow): Promise<ReadRecord> {
  const [tray, events, materials, versions, linked] = await Promise.all([
    loadTray(tx, record.tray_id),
    store.listEvents(tx, record.id),
    store.listMaterials(tx, record.id),
    store.listVersions(tx, record),
    findLinked(tx, record.id),
  ]);
  return { record, tray: tray!, events, materials, versions, linked };
}

/** The technique's steps that apply to the record's tooth. */
export function listRecordSteps({ record, tray }: ReadRecord): readonly TechniqueStep[] {
  const teeth = tray.facts.teeth.filter(({ tooth }) => tooth === record.tooth);
  return listStepsFor(record.steps.map(fillStep), teeth);
}
