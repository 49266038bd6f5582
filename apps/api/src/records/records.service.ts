import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { assignSteps, civilDateAt, type TechniqueStep } from "#domain";
import type { CheckView } from "#contracts/findings";
import type { RecordView } from "#contracts/records";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { proveAgain } from "../people/proof.ts";
import { findProductName } from "../catalogue/catalogue.store.ts";
import { insertMovement } from "../stock/movements.store.ts";
import { getPlaceOfKind, updateOpenedOn } from "../stock/stock.store.ts";
import { nameScan, placeScan } from "../trays/place-scan.ts";
import { loadTray, lockTray } from "../trays/tray-facts.store.ts";
import { checkNow } from "../trays/tray-view.ts";
import { removeTrayItem, updateTrayState } from "../trays/trays.store.ts";
import { listRecordSteps, readRecord, type ReadRecord } from "./read-record.ts";
import { recordView } from "./record-view.ts";
import { chooseSeals } from "./choose-seals.ts";
import { factsOf, refuseTimeOutside } from "./event-facts.ts";
import { sealRecord } from "./seal-record.ts";
import * as store from "./records.store.ts";

@Injectable()
export class RecordsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  /** The tap that starts priming: not while a stop is left that no dentist has passed. */
  startRecord(call: Call<"startRecord">): Promise<Answer<"startRecord">> {
    const { trayId } = call.params;
    const { happenedAt } = call.body;
    refuseOtherTimes(call.at, happenedAt);
    return inCommand(this.db, call, async (tx) => {
      const locked = await lockTray(tx, trayId);
      if (!locked) throw notFound("tray");
      const loaded = (await loadTray(tx, trayId))!;
      const { head } = loaded;
      if (locked.state === "cleared" || head.records.length > 0) {
        throw new Problem("tray-not-open", "This tray already has its records, or is cleared.", {
          records: head.records,
        });
      }
      const check = checkNow(tx, loaded, happenedAt);
      refuseStops(check, null);
      const seals = await chooseSeals(tx, head, call.body.seals);
      const ids = [];
      for (const { tooth, mode, surfaces } of head.teeth) {
        const id = newId();
        ids.push(id);
        await store.insertRecord(tx, {
          id,
          trayId,
          patientId: head.patient_id,
          tooth,
          mode,
          surfaces,
          techniqueId: head.technique_id,
          visit: head.visit,
          sealId: seals.get(tooth) ?? null,
          verdict: check,
          happenedAt,
        });
        const started = { tray: trayId, verdict: check.verdict };
        const seal = seals.get(tooth);
        tx.audit(
          "priming-started",
          `record:${id}`,
          seal === undefined ? started : { ...started, seal },
        );
      }
      await updateTrayState(tx, trayId, "in-use");
      const records = [];
      for (const id of ids) {
        records.push(recordView(tx, await readRecord(tx, (await store.findRecord(tx, id))!)));
      }
      return { records };
    });
  }

  listRecords(call: Call<"listRecords">): Promise<Answer<"listRecords">> {
    return inRead(this.db, call, async (tx) => {
      const rows = await store.listRecords(tx, call.query);
      const page = rows.slice(0, call.query.limit);
      return {
        records: page.map((row) => ({
          id: row.id,
          chartNumber: row.chart_number,
          tooth: row.tooth,
          techniqueName: row.technique_name,
          visit: row.visit,
          state: row.state,
          startedAt: row.started_at.toISOString(),
          signedAt: row.signed_at?.toISOString() ?? null,
          materials: row.materials,
        })),
        next: rows.length > page.length ? page.at(-1)!.id : null,
      };
    });
  }

  getRecord(call: Call<"getRecord">): Promise<RecordView> {
    return inRead(this.db, call, async (tx) => {
      const record = await store.findRecord(tx, call.params.recordId);
      if (!record) throw notFound("record");
      return recordView(tx, await readRecord(tx, record));
    });
  }

  addRecordEvent(call: Call<"addRecordEvent">): Promise<RecordView> {
    const { body } = call;
    return inCommand(this.db, call, async (tx) => {
      const read = await getDraft(tx, call.params.recordId);
      const { id } = read.record;
      const { kind, occurredAt } = body;
      const { stepKey } = { stepKey: undefined, ...body };
      refuseTimeOutside(tx, read, occurredAt);
      const step = stepKey === undefined ? null : getStep(read, stepKey);
      const facts = await factsOf(tx, read, { event: body, step });
      const begins = kind === "part-started" && !hasBegun(read, body.stepKey);
      if (kind === "step-started" || begins) await useMaterials(tx, read, body);
      if (begins) {
        const begun = { kind: "step-started", stepKey, facts: {}, occurredAt };
        await store.insertEvent(tx, id, begun);
      }
      if (kind === "not-scanned") await noteNotScanned(tx, read, body);
      await store.insertEvent(tx, id, { kind, stepKey, facts, occurredAt });
      tx.audit("record-event", `record:${id}`, body);
      return recordView(tx, await readRecord(tx, read.record));
    });
  }

  /** A container takes over at a step, and with what it replaces at every step still to come. */
  swapContainer(call: Call<"swapContainer">): Promise<RecordView> {
    const { stepKey, replaces, emptied, occurredAt, ...sent } = call.body;
    return inCommand(this.db, call, async (tx) => {
      const read = await getDraft(tx, call.params.recordId);
      const { record, tray } = read;
      getStep(read, stepKey);
      refuseTimeOutside(tx, read, occurredAt);
      await lockTray(tx, tray.head.id);
      const place = { id: tray.head.id, locationId: tray.head.location_id };
      const named = await nameScan(tx, sent, place.id);
      if (replaces !== undefined) await takeOff(tx, read, { containerId: replaces, emptied });
      if (replaces !== undefined && named.container?.id === replaces) {
        throw new Problem(
          "already-on-tray",
          "That is the container to be replaced. Scan the new one.",
        );
      }
      const atStep = replaces === undefined ? stepKey : null;
      const itemId = newId();
      await placeScan(tx, place, { itemId, named, sent, stepKey: atStep });
      const facts = { item: itemId, replaces: replaces ?? null, emptied };
      await noteSwap(tx, read, { stepKey, itemId, facts, occurredAt });
      return recordView(tx, await readRecord(tx, record));
    });
  }

  async signRecord(call: Call<"signRecord">): Promise<RecordView> {
    await proveAgain(this.db, call, call.body);
    return inCommand(this.db, call, async (tx) => {
      const read = await getDraft(tx, call.params.recordId);
      refuseIncomplete(tx, read);
      return recordView(tx, await sealRecord(tx, read));
    });
  }
}

const dayMs = 86_400_000;

/** What is told later has happened, and not so long ago that nobody remembers it. */
function refuseOtherTimes(at: Date, happenedAt: string | undefined): void {
  if (happenedAt === undefined) return;
  const ago = at.getTime() - Date.parse(happenedAt);
  if (ago > 0 && ago <= 31 * dayMs) return;
  const message = "in the past, at most 31 days ago";
  throw new Problem("invalid-request", `Say when it happened: ${message}.`, {
    errors: [{ path: "/body/happenedAt", message }],
  });
}

const hasBegun = ({ events }: ReadRecord, stepKey: string): boolean =>
  events.some(({ kind, step_key }) => kind === "step-started" && step_key === stepKey);

async function getDraft(tx: Tx, id: string): Promise<ReadRecord> {
  const record = await store.lockRecord(tx, id);
  if (!record) throw notFound("record");
  if (record.state === "draft") return readRecord(tx, record);
  throw new Problem("record-signed", "The record is signed and does not change any more.");
}

function getStep(read: ReadRecord, key: string): TechniqueStep {
  const step = listRecordSteps(read).find((each) => each.key === key);
  if (!step) throw notFound(`step '${key}'`);
  return step;
}

/** Refuses while a stop is left, at one step or (null) anywhere on the tray. */
function refuseStops(check: CheckView, stepKey: string | null): void {
  const stops = check.findings.filter(
    ({ level, overridden, subject }) =>
      level === "stop" && !overridden && (stepKey === null || subject.stepKey === stepKey),
  );
  if (stops.length === 0) return;
  throw new Problem(
    "verdict-stops",
    "The check says stop. Change what it names, or let a dentist pass it with a reason.",
    { findings: stops },
  );
}

/** What stands at the step is used from now on: noted with its lot, and opened by its first use. */
async function useMaterials(
  tx: Tx,
  read: ReadRecord,
  used: { stepKey: string; onlyItem?: string; occurredAt?: string | undefined },
): Promise<void> {
  const { record, tray, materials } = read;
  const { stepKey, onlyItem } = used;
  const usedAt = used.occurredAt ?? tx.at.toISOString();
  // What is told later is checked by what was in date when it was used.
  refuseStops(checkNow(tx, tray, record.told_at === null ? undefined : usedAt), stepKey);
  const { steps } = assignSteps(listRecordSteps(read), tray.facts.items);
  const atStep = steps.find(({ step }) => step.key === stepKey)?.items ?? [];
  const today = civilDateAt(usedAt, tx.actor.timeZone);
  for (const { id, container } of atStep) {
    if (!container || (onlyItem !== undefined && id !== onlyItem)) continue;
    const noted = materials.some(
      (row) => row.step_key === stepKey && row.container_id === container.id,
    );
    if (noted) continue;
    if (container.openedOn === null) {
      const isFirst = await updateOpenedOn(tx, container.id, today);
      const how = { on: today, by: "first use" };
      if (isFirst) tx.audit("container-opened", `container:${container.id}`, how);
    }
    await store.insertMaterial(tx, {
      id: newId(),
      recordId: record.id,
      stepKey,
      productId: container.productId,
      lotId: container.lotId,
      containerId: container.id,
      notScannedReason: null,
      patientId: record.patient_id,
      tooth: record.tooth,
      usedAt,
    });
    tx.audit("material-used", `record:${record.id}`, { stepKey, container: container.id });
  }
}

async function noteNotScanned(
  tx: Tx,
  { record }: ReadRecord,
  told: { stepKey: string; productId: string; reason: string; occurredAt?: string | undefined },
): Promise<void> {
  if (!(await findProductName(tx, told.productId))) throw notFound("product");
  await store.insertMaterial(tx, {
    id: newId(),
    recordId: record.id,
    stepKey: told.stepKey,
    productId: told.productId,
    lotId: null,
    containerId: null,
    notScannedReason: told.reason,
    patientId: record.patient_id,
    tooth: record.tooth,
    usedAt: told.occurredAt ?? tx.at,
  });
}

/** The new container is used at once on every tooth of the visit on which the step is running. */
async function noteSwap(
  tx: Tx,
  { record, tray }: ReadRecord,
  told: { stepKey: string; itemId: string; facts: object; occurredAt: string | undefined },
): Promise<void> {
  const { stepKey, itemId, facts, occurredAt } = told;
  for (const { id, state } of tray.head.records) {
    if (state !== "draft") continue;
    const read = await getDraft(tx, id);
    const ofStep = read.events.filter((event) => event.step_key === stepKey);
    const isRunning =
      hasBegun(read, stepKey) &&
      !(id !== record.id && ofStep.some(({ kind }) => kind === "step-done"));
    if (isRunning) await useMaterials(tx, read, { stepKey, onlyItem: itemId, occurredAt });
    if (isRunning || id === record.id) {
      await store.insertEvent(tx, id, { kind: "material", stepKey, facts, occurredAt });
    }
  }
}

async function takeOff(
  tx: Tx,
  { tray }: ReadRecord,
  told: { containerId: string; emptied: boolean },
): Promise<void> {
  const row = tray.rows.find((each) => each.id === told.containerId);
  if (!row) {
    throw new Problem("not-on-tray", "The container to be replaced is not on this tray.");
  }
  await removeTrayItem(tx, tray.head.id, row.item_id);
  tx.audit("removed-from-tray", `tray:${tray.head.id}`, { item: row.item_id });
  if (!told.emptied) return;
  await insertMovement(tx, {
    id: newId(),
    lotId: row.lot_id,
    containerId: told.containerId,
    fromLocationId: row.location_id,
    toLocationId: (await getPlaceOfKind(tx, "used")).id,
    quantity: 1,
    reason: "used-up",
  });
}

function refuseIncomplete(tx: Tx, read: ReadRecord): void {
  const { tray, events, materials } = read;
  const check = checkNow(tx, tray);
  const lacking = listRecordSteps(read).filter((step) => {
    if (!step.required) return false;
    const done = events.some(({ kind, step_key }) => kind === "step-done" && step_key === step.key);
    const passed = check.findings.some(
      ({ code, overridden, subject }) =>
        code === "missing" && overridden !== null && subject.stepKey === step.key,
    );
    const noted = materials.some(({ step_key }) => step_key === step.key);
    return !(done && (step.accepts.length === 0 || noted || passed));
  });
  if (lacking.length === 0) return;
  const names = lacking.map(({ name }) => name).join(", ");
  throw new Problem("record-not-complete", `Not yet done or without material: ${names}.`, {
    steps: lacking.map(({ key }) => key),
  });
}
