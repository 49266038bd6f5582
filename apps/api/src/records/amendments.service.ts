import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt } from "#domain";
import type { AmendmentEntry, AmendRecord, RecordView } from "#contracts/records";
import { inCommand, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { proveAgain } from "../people/proof.ts";
import { findContainer, updateOpenedOn } from "../stock/stock.store.ts";
import { findProductName } from "../catalogue/catalogue.store.ts";
import { listSealsForTray } from "../waiting/waiting.store.ts";
import * as store from "./amendments.store.ts";
import { getSeal } from "./choose-seals.ts";
import { factsOf, refuseTimeOutside } from "./event-facts.ts";
import { listRecordSteps, readRecord, type ReadRecord } from "./read-record.ts";
import { recordView } from "./record-view.ts";
import {
  findRecord,
  insertEvent,
  insertMaterial,
  lockRecord,
  type EventRow,
  type MaterialRow,
} from "./records.store.ts";
import { sealRecord } from "./seal-record.ts";

/** What an amendment can declare wrong besides materials: told by a person, not by the work. */
const removable = new Set(["deviation", "note", "thickness", "cure", "dispensed", "material"]);

/** Signed records live on: each change is a later version, written and signed in one go. */
@Injectable()
export class AmendmentsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  async amendRecord(call: Call<"amendRecord">): Promise<RecordView> {
    const { body } = call;
    await proveAgain(this.db, call, body);
    return inCommand(this.db, call, async (tx) => {
      const before = await getSigned(tx, call.params.recordId);
      refuseEmpty(body);
      const { events, materials } = listLeftOut(before, body);
      const ids = { of: before.record.id, id: newId() };
      const sealId = await getOtherSeal(tx, before.record, body.sealId);
      await store.insertVersion(tx, ids, { ...body, sealId });
      await store.copyEvents(tx, ids, events);
      await store.copyMaterials(tx, ids, materials);
      const draft = (await findRecord(tx, ids.id))!;
      let whole = await readRecord(tx, draft);
      for (const entry of body.add) {
        await addEntry(tx, whole, entry);
        whole = await readRecord(tx, draft);
      }
      refuseWithoutMaterial(before, whole);
      const { amends, reason } = body;
      tx.audit("record-amended", `record:${ids.of}`, { by: ids.id, amends, reason });
      return recordView(tx, await sealRecord(tx, whole, before));
    });
  }
}

async function getSigned(tx: Tx, id: string): Promise<ReadRecord> {
  const record = await lockRecord(tx, id);
  if (!record) throw notFound("record");
  const read = await readRecord(tx, record);
  if (record.state === "signed") return read;
  if (record.state === "draft") {
    throw new Problem(
      "record-not-signed",
      "This record is still a draft. Write to it, sign it, and amend it after that.",
    );
  }
  throw new Problem(
    "record-superseded",
    "A later version stands in the place of this one. Amend that one.",
    { newest: read.versions.at(-1)?.id },
  );
}

function refuseEmpty({ amends, add, leaveOut, sealId }: AmendRecord): void {
  const isLess = leaveOut.events.length + leaveOut.materials.length > 0;
  if (amends === "addition" && sealId !== undefined) {
    throw invalid("/body/sealId", "another seal, or none, is a correction");
  }
  if (amends === "addition" && isLess) {
    throw invalid("/body/leaveOut", "an addition leaves nothing out: it is a correction then");
  }
  if (add.length === 0 && !isLess && sealId === undefined) {
    throw invalid("/body/add", "say what is added or what was wrong");
  }
}

function invalid(path: string, message: string): Problem {
  const sentence = "The amendment does not say what it changes, or names what is not there.";
  return new Problem("invalid-request", sentence, { errors: [{ path, message }] });
}

/** The seal that a bonding record really builds on; undefined where that is not in question. */
async function getOtherSeal(
  tx: Tx,
  { visit, tray_id: trayId, tooth }: ReadRecord["record"],
  sealId: AmendRecord["sealId"],
): Promise<AmendRecord["sealId"]> {
  if (sealId === undefined) return undefined;
  if (visit !== "bonding") throw invalid("/body/sealId", "only a bonding builds on a seal");
  return sealId && getSeal(await listSealsForTray(tx, trayId), { tooth, id: sealId });
}

/** The rows not carried over; with a material goes the entry that told of it alone. */
function listLeftOut(
  { events, materials }: ReadRecord,
  { leaveOut }: AmendRecord,
): AmendRecord["leaveOut"] {
  const wrong = leaveOut.events.map((sequence) => {
    const event = events.find((one) => one.sequence === sequence);
    if (event !== undefined && removable.has(event.kind)) return event;
    throw invalid("/body/leaveOut/events", `no entry ${sequence} that can be declared wrong`);
  });
  const used = [...new Set(leaveOut.materials)].map((id) => {
    const material = materials.find((one) => one.id === id);
    if (material !== undefined) return material;
    throw invalid("/body/leaveOut/materials", `no material ${id} in this version`);
  });
  const told = new Set(wrong);
  for (const material of used) {
    const teller = events.find((event) => !told.has(event) && tellsOf(event, material));
    if (teller !== undefined) told.add(teller);
  }
  return {
    events: [...told].map(({ sequence }) => sequence),
    materials: used.map(({ id }) => id),
  };
}

/** An entry that says no more than that this material was used: without a scan, or afterwards. */
function tellsOf({ kind, step_key, facts }: EventRow, material: MaterialRow): boolean {
  if (step_key !== material.step_key) return false;
  if (kind === "material") return facts["container"] === material.container_id;
  return (
    kind === "not-scanned" &&
    facts["productId"] === material.product_id &&
    facts["reason"] === material.not_scanned_reason
  );
}

async function addEntry(tx: Tx, draft: ReadRecord, entry: AmendmentEntry): Promise<void> {
  const { id } = draft.record;
  const { stepKey } = { stepKey: undefined, ...entry };
  const step = listRecordSteps(draft).find(({ key }) => key === stepKey) ?? null;
  if (stepKey !== undefined && step === null) throw notFound(`step '${stepKey}'`);
  refuseTimeOutside(tx, draft, entry.occurredAt);
  // A note is of now, anything else belongs to its step at the visit, unless told otherwise.
  const usual = entry.kind === "note" ? tx.at : whenAtStep(draft, stepKey);
  const occurredAt = entry.occurredAt ?? usual.toISOString();
  if (entry.kind === "used") {
    await noteUsed(tx, draft, { ...entry, occurredAt });
    const facts = { container: entry.containerId };
    await insertEvent(tx, id, { kind: "material", stepKey, facts, occurredAt });
    return;
  }
  const facts = await factsOf(tx, draft, { event: { ...entry, occurredAt }, step });
  if (entry.kind === "not-scanned") {
    if (!(await findProductName(tx, entry.productId))) throw notFound("product");
    await insertMaterial(tx, {
      ...placeOf(draft, { ...entry, occurredAt }),
      productId: entry.productId,
      lotId: null,
      containerId: null,
      notScannedReason: entry.reason,
    });
  }
  await insertEvent(tx, id, { kind: entry.kind, stepKey, facts, occurredAt });
}

/** When the last of a step happened; where none did, when the record began. */
function whenAtStep({ record, events }: ReadRecord, stepKey: string | undefined): Date {
  const times = events
    .filter(({ step_key }) => stepKey !== undefined && step_key === stepKey)
    .map(({ occurred_at }) => occurred_at.getTime());
  return times.length === 0 ? record.started_at : new Date(Math.max(...times));
}

async function noteUsed(
  tx: Tx,
  draft: ReadRecord,
  told: { stepKey: string; containerId: string; occurredAt: string },
): Promise<void> {
  const container = await findContainer(tx, told.containerId);
  if (!container) throw notFound("container");
  const isNoted = draft.materials.some(
    (row) => row.step_key === told.stepKey && row.container_id === told.containerId,
  );
  if (isNoted) throw invalid("/body/add", "that container stands at that step already");
  const on = civilDateAt(told.occurredAt, tx.actor.timeZone);
  if (container.opened_on === null && (await updateOpenedOn(tx, container.id, on))) {
    tx.audit("container-opened", `container:${container.id}`, { on, by: "first use" });
  }
  await insertMaterial(tx, {
    ...placeOf(draft, told),
    productId: container.product_id,
    lotId: container.lot_id,
    containerId: told.containerId,
    notScannedReason: null,
  });
}

const placeOf = ({ record }: ReadRecord, told: { stepKey: string; occurredAt: string }) => ({
  id: newId(),
  recordId: record.id,
  stepKey: told.stepKey,
  patientId: record.patient_id,
  tooth: record.tooth,
  usedAt: told.occurredAt,
});

/** A step that had a material keeps one: a wrong one is replaced by what it really was. */
function refuseWithoutMaterial(before: ReadRecord, after: ReadRecord): void {
  const has = ({ materials }: ReadRecord, key: string): boolean =>
    materials.some(({ step_key }) => step_key === key);
  const bare = listRecordSteps(before).filter(
    ({ key, required }) => required && has(before, key) && !has(after, key),
  );
  if (bare.length === 0) return;
  const names = bare.map(({ name }) => name).join(", ");
  throw new Problem(
    "record-not-complete",
    `Without a material now: ${names}. Add the one that was used, or that it was not scanned.`,
    { steps: bare.map(({ key }) => key) },
  );
}
