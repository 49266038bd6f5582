import { canonicalJson } from "#domain";
import type { Tx } from "../db/transaction.ts";
import { readRecord, type ReadRecord } from "./read-record.ts";
import { recordView } from "./record-view.ts";
import { findRecord, hashRows, updateSigned } from "./records.store.ts";

/** Signs a draft in the actor's name: it is sealed by its hash and never changes again. */
export async function sealRecord(tx: Tx, read: ReadRecord): Promise<ReadRecord> {
  const { id } = read.record;
  await updateSigned(tx, id, canonicalJson(await sealedContent(tx, read)));
  const signed = (await findRecord(tx, id))!;
  tx.audit("record-signed", `record:${id}`, { hash: signed.hash });
  return readRecord(tx, signed);
}

/** What a signature stands for; its canonical JSON is what is hashed. */
async function sealedContent(tx: Tx, read: ReadRecord): Promise<object> {
  const { steps, materials, events, ...view } = recordView(tx, read);
  const { check: _now, signed: _none, state: _draft, versions: _others, ...content } = view;
  return {
    ...content,
    materials,
    events,
    plannedSteps: steps,
    rows: await hashRows(tx, read.record.id),
    signedBy: tx.actor.personId,
    signedAt: tx.at.toISOString(),
    meaning: "I did, or supervised, what this record says, with the materials it names.",
  };
}
