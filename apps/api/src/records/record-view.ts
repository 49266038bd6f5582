import type { RecordView } from "#contracts/records";
import { stepViews } from "../catalogue/step-views.ts";
import type { Tx } from "../db/transaction.ts";
import { checkNow, findingView, subjectOf } from "../trays/tray-view.ts";
import { linkedViews } from "./linked-view.ts";
import { plannedSteps } from "./planned-steps.ts";
import type { ReadRecord } from "./read-record.ts";
import type { VersionRow } from "./records.store.ts";
import { sealedView } from "./sealed-view.ts";

/** A draft as it stands at this moment; a signed record as it was signed. */
export function recordView(tx: Tx, read: ReadRecord): RecordView {
  const now = viewNow(tx, read);
  const { canonical } = read.record;
  return canonical === null ? now : sealedView(now, canonical);
}

function viewNow(tx: Tx, read: ReadRecord): RecordView {
  const { record, events, materials } = read;
  const { signed_at: signedAt, signed_by: signedBy, hash } = record;
  const isOfRecord = ({ tooth }: { tooth: string }) => tooth === record.tooth;
  return {
    id: record.id,
    trayId: record.tray_id,
    chartNumber: record.chart_number,
    tooth: record.tooth,
    mode: record.mode,
    surfaces: record.surfaces,
    restoration: read.tray.head.teeth.find(isOfRecord)?.restoration ?? null,
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
    amends: record.amends,
    amendReason: record.amend_reason,
    versions: read.versions.map(versionView),
    toldAt: record.told_at?.toISOString() ?? null,
    startedAt: record.started_at.toISOString(),
    startedBy: record.started_by,
    signed:
      signedAt && signedBy && hash ? { by: signedBy, at: signedAt.toISOString(), hash } : null,
    ...linkedViews(tx, read),
    startCheck: startCheckOf(read),
    passed: listPassed(read),
    check: record.state === "draft" ? checkNow(tx, read.tray, thenOf(read)) : null,
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

const versionView = (row: VersionRow): RecordView["versions"][number] => ({
  id: row.id,
  version: row.version,
  state: row.state,
  amends: row.amends,
  reason: row.amend_reason,
  signed:
    row.signed_by && row.signed_at ? { by: row.signed_by, at: row.signed_at.toISOString() } : null,
});

const startCheckOf = ({ record }: ReadRecord) => record.verdict as RecordView["startCheck"];

/** What was passed while the record was written; what had been before is in its first check. */
function listPassed(read: ReadRecord): RecordView["passed"] {
  const { record, tray } = read;
  const begunAt = record.told_at ?? record.started_at;
  const before = startCheckOf(read).findings.filter(({ overridden }) => overridden !== null);
  const during = tray.overrides.filter(({ at, code, subject }) => {
    const time = Date.parse(at);
    const isKnown = before.some((one) => one.code === code && subjectOf(one) === subject);
    const isEarly = time < begunAt.getTime();
    return !isKnown && !isEarly && time <= (record.signed_at?.getTime() ?? Infinity);
  });
  return during.map((one) => findingView(one.finding, one));
}

/** What is told later is checked as of when it happened. */
const thenOf = ({ record }: ReadRecord): string | undefined =>
  record.told_at === null ? undefined : record.started_at.toISOString();
