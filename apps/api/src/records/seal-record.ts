import { canonicalJson } from "#domain";
import type { RecordView } from "#contracts/records";
import type { Tx } from "../db/transaction.ts";
import { readRecord, type ReadRecord } from "./read-record.ts";
import { recordView } from "./record-view.ts";
import { carriedOver } from "./sealed-view.ts";
import { findRecord, hashRows, updateSigned } from "./records.store.ts";

/**
 * Signs a draft in the actor's name: it is sealed by its hash and never changes again. `before` is
 * the version that it follows.
 */
export async function sealRecord(
  tx: Tx,
  read: ReadRecord,
  before?: ReadRecord,
): Promise<ReadRecord> {
  const { id } = read.record;
  const view = recordView(tx, read);
  const carried = before ? carriedOver(view, recordView(tx, before)) : {};
  await updateSigned(tx, id, canonicalJson(await sealedContent(tx, { ...view, ...carried })));
  const signed = (await findRecord(tx, id))!;
  tx.audit("record-signed", `record:${id}`, { hash: signed.hash });
  return readRecord(tx, signed);
}

/** What a signature stands for; its canonical JSON is what is hashed. */
async function sealedContent(tx: Tx, view: RecordView): Promise<object> {
  const { steps, check: _now, signed: _none, state: _draft, versions: _others, ...content } = view;
  return {
    ...content,
    plannedSteps: steps,
    rows: await hashRows(tx, view.id),
    signedBy: tx.actor.personId,
    signedAt: tx.at.toISOString(),
    meaning: "I did, or supervised, what this record says, with the materials it names.",
  };
}
