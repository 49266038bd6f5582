import {
  assignSteps,
  computeEffectiveEnd,
  fillStep,
  listStepsFor,
  planSeconds,
  type ProductFacts,
  type TechniqueStep,
} from "#domain";
import type { PlannedStep, RecordView } from "#contracts/records";
import { stepViews } from "../catalogue/step-views.ts";
import type { Tx } from "../db/transaction.ts";
import { loadTray, type LoadedTray } from "../trays/tray-facts.store.ts";
import { checkNow } from "../trays/tray-view.ts";
import * as store from "./records.store.ts";

/** A record with all that was written to it; while it is a draft, checked anew. */
export interface ReadRecord {
  record: store.RecordRow;
  tray: LoadedTray;
  events: store.EventRow[];
  materials: store.MaterialRow[];
}

export async function readRecord(tx: Tx, record: store.RecordRow): Promise<ReadRecord> {
  const [tray, events, materials] = await Promise.all([
    loadTray(tx, record.tray_id),
    store.listEvents(tx, record.id),
    store.listMaterials(tx, record.id),
  ]);
  return { record, tray: tray!, events, materials };
}

/** The technique's steps that apply to the record's tooth. */
export function listRecordSteps({ record, tray }: ReadRecord): readonly TechniqueStep[] {
  const teeth = tray.facts.teeth.filter(({ tooth }) => tooth === record.tooth);
  return listStepsFor(record.steps.map(fillStep), teeth);
}

export function recordView(tx: Tx, read: ReadRecord): RecordView {
  const { record, events, materials } = read;
  const { signed_at: signedAt, signed_by: signedBy, hash } = record;
  return {
    id: record.id,
    trayId: record.tray_id,
    chartNumber: record.chart_number,
    tooth: record.tooth,
    visit: record.visit,
    technique: {
      id: record.technique_id,
      key: record.technique_key,
      name: record.technique_name,
      version: record.technique_version,
      visit: record.visit,
      starter: record.technique_starter,
      steps: stepViews(record.steps),
    },
    state: record.state,
    version: record.version,
    startedAt: record.started_at.toISOString(),
    startedBy: record.started_by,
    signed:
      signedAt && signedBy && hash ? { by: signedBy, at: signedAt.toISOString(), hash } : null,
    startCheck: record.verdict as RecordView["startCheck"],
    check: record.state === "draft" ? checkNow(tx, read.tray) : null,
    steps: plannedSteps(read),
    materials: materials.map((row) => ({
      id: row.id,
      stepKey: row.step_key,
      productName: row.product_name,
      lotId: row.lot_id,
      lot: row.lot,
      useBy: row.use_by,
      containerId: row.container_id,
      containerCode: row.container_code,
      notScannedReason: row.not_scanned_reason,
      usedAt: row.used_at.toISOString(),
      person: row.person,
    })),
    events: events.map((row) => ({
      sequence: row.sequence,
      kind: row.kind,
      stepKey: row.step_key,
      facts: row.facts,
      occurredAt: row.occurred_at.toISOString(),
      recordedAt: row.recorded_at.toISOString(),
      person: row.person,
    })),
  };
}

function plannedSteps(read: ReadRecord): PlannedStep[] {
  const { tray, events } = read;
  const { steps } = assignSteps(listRecordSteps(read), tray.facts.items);
  return steps.map(({ step, items }) => {
    const products = items
      .map(({ product }) => product)
      .filter((product): product is ProductFacts => product !== null);
    const ofStep = events.filter((event) => event.step_key === step.key);
    const started = ofStep.findLast(({ kind }) => kind === "step-started");
    return {
      key: step.key,
      name: step.name,
      required: step.required,
      usesMaterial: step.accepts.length > 0,
      applicationSeconds: planSeconds(step, products, "applicationSeconds"),
      airDrySeconds: planSeconds(step, products, "airDrySeconds"),
      cureSeconds: planSeconds(step, products, "cureSeconds"),
      containers: items.flatMap(({ container, product }) =>
        container && product
          ? [
              {
                id: container.id,
                code: container.code,
                productName: product.name,
                lot: container.lot,
                endsOn: computeEffectiveEnd({ ...container, ...product })?.date ?? null,
              },
            ]
          : [],
      ),
      done: ofStep.some(({ kind }) => kind === "step-done"),
      startedAt: started?.occurred_at.toISOString() ?? null,
    };
  });
}
