import type { RecordQuery } from "#contracts/records";
import type { Amendment, KeptStep, RecordState, ToothMode } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface RecordRow {
  id: string;
  tray_id: string;
  patient_id: string;
  chart_number: string;
  tooth: string;
  visit: "sealing" | "bonding";
  state: RecordState;
  version: number;
  mode: ToothMode | null;
  surfaces: string;
  amends: Amendment | null;
  amend_reason: string | null;
  told_at: Date | null;
  verdict: Record<string, unknown>;
  started_at: Date;
  started_by: string;
  signed_at: Date | null;
  signed_by: string | null;
  /** What was signed. */
  canonical: string | null;
  hash: string | null;
  technique_id: string;
  technique_key: string;
  technique_name: string;
  technique_version: number;
  technique_starter: boolean;
  steps: KeptStep[];
}
const recordText = `select r.id, r.tray_id, r.patient_id, a.chart_number, r.tooth, r.visit, r.state,
    r.version, r.mode, r.surfaces, r.amends, r.amend_reason, r.told_at, r.verdict,
    r.started_at, s.display_name as started_by, r.signed_at,
    g.display_name as signed_by, r.canonical, encode(r.hash, 'hex') as hash, e.id as technique_id,
    e.key as technique_key, e.name as technique_name, e.version as technique_version,
    e.starter as technique_starter, e.steps
  from record r
  join patient a on a.practice_id = r.practice_id and a.id = r.patient_id
  join technique e on e.id = r.technique_id
  join person s on s.id = r.started_by
  left join person g on g.id = r.signed_by
  where r.practice_id = $1`;
const byId = statement<RecordRow>("find-record", `${recordText} and r.id = $2`);
const lock = statement(
  "lock-record",
  "select 1 from record where practice_id = $1 and id = $2 for update",
);
export interface VersionRow {
  id: string;
  version: number;
  state: RecordState;
  amends: Amendment | null;
  amend_reason: string | null;
  signed_by: string | null;
  signed_at: Date | null;
}
const versions = statement<VersionRow>(
  "list-record-versions",
  `select r.id, r.version, r.state, r.amends, r.amend_reason, g.display_name as signed_by,
     r.signed_at
   from record r left join person g on g.id = r.signed_by
   where r.practice_id = $1 and r.tray_id = $2 and r.tooth = $3 order by r.version`,
);
/** All versions of what was done to a tooth at a visit, oldest first. */
export const listVersions = (tx: Tx, { tray_id: trayId, tooth }: RecordRow) =>
  tx.rows(versions, [tx.actor.practiceId, trayId, tooth]);

const practiceName = statement<{ name: string }>(
  "practice-name",
  "select name from practice where practice_id = $1",
);
export const getPracticeName = async (tx: Tx): Promise<string> =>
  (await tx.rows(practiceName, [tx.actor.practiceId]))[0]!.name;

export async function findRecord(tx: Tx, id: string): Promise<RecordRow | undefined> {
  return (await tx.rows(byId, [tx.actor.practiceId, id]))[0];
}
/** The record, held against other changes until the transaction ends. */
export async function lockRecord(tx: Tx, id: string): Promise<RecordRow | undefined> {
  await tx.rows(lock, [tx.actor.practiceId, id]);
  return findRecord(tx, id);
}

const insert = statement(
  "insert-record",
  `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit, state,
                       verdict, started_by, started_at, mode, surfaces, seal_id, told_at)
   values ($1, $2, $3, $4, $5, $6, $7, 'draft', $8, $9, $10, $11, $12, $13, $14)`,
);
export const insertRecord = (
  tx: Tx,
  one: {
    id: string;
    trayId: string;
    patientId: string;
    tooth: string;
    mode: ToothMode | null;
    surfaces: string;
    techniqueId: string;
    visit: string;
    sealId: string | null;
    verdict: object;
    /** Where it is told later. */
    happenedAt: string | undefined;
  },
) => {
  const what = [one.id, one.trayId, one.patientId, one.tooth, one.techniqueId, one.visit];
  const { practiceId, personId } = tx.actor;
  const verdict = JSON.stringify(one.verdict);
  const toldAt = one.happenedAt === undefined ? null : tx.at;
  const how = [verdict, personId, one.happenedAt ?? tx.at, one.mode, one.surfaces, one.sealId];
  return tx.rows(insert, [practiceId, ...what, ...how, toldAt]);
};

const sealed = statement<{ hash: string }>(
  "hash-record-rows",
  "select encode(sha256(convert_to(record_rows($1, $2), 'UTF8')), 'hex') as hash",
);
/** The hash of all that is written of a record so far, row by row. */
export async function hashRows(tx: Tx, id: string): Promise<string> {
  return (await tx.rows(sealed, [tx.actor.practiceId, id]))[0]!.hash;
}

const signature = statement(
  "sign-record",
  `update record set state = 'signed', signed_by = $3, signed_at = $4, canonical = $5,
     hash = sha256(convert_to($5, 'UTF8')) where practice_id = $1 and id = $2`,
);
export const updateSigned = (tx: Tx, id: string, canonical: string) =>
  tx.rows(signature, [tx.actor.practiceId, id, tx.actor.personId, tx.at, canonical]);

export interface EventRow {
  sequence: number;
  kind: string;
  step_key: string | null;
  facts: Record<string, unknown>;
  occurred_at: Date;
  recorded_at: Date;
  person: string;
}
const events = statement<EventRow>(
  "list-record-events",
  `select v.sequence, v.kind, v.step_key, v.facts, v.occurred_at, v.recorded_at,
          p.display_name as person
   from record_event v join person p on p.id = v.person_id
   where v.practice_id = $1 and v.record_id = $2 order by v.sequence`,
);
export const listEvents = (tx: Tx, recordId: string) =>
  tx.rows(events, [tx.actor.practiceId, recordId]);

// The record is locked by whoever writes to it, so the next number is free.
const event = statement(
  "insert-record-event",
  `insert into record_event (practice_id, record_id, sequence, kind, step_key, facts, occurred_at,
                             recorded_at, person_id)
   select $1, $2, coalesce(max(sequence), 0) + 1, $3, $4, $5, $6, $7, $8
   from record_event where practice_id = $1 and record_id = $2`,
);
export const insertEvent = (
  tx: Tx,
  recordId: string,
  one: {
    kind: string;
    stepKey?: string | undefined;
    facts?: object;
    occurredAt?: string | undefined;
  },
) => {
  const what = [one.kind, one.stepKey ?? null, JSON.stringify(one.facts ?? {})];
  const { practiceId, personId } = tx.actor;
  return tx.rows(event, [practiceId, recordId, ...what, one.occurredAt ?? tx.at, tx.at, personId]);
};

export interface MaterialRow {
  id: string;
  step_key: string;
  product_id: string;
  product_name: string;
  radiant_exposure_j_cm2: number | null;
  lot_id: string | null;
  lot: string | null;
  use_by: string | null;
  container_id: string | null;
  container_code: string | null;
  not_scanned_reason: string | null;
  used_at: Date;
  person: string;
}
const materials = statement<MaterialRow>(
  "list-step-materials",
  `select m.id, m.step_key, m.product_id, p.name as product_name,
          p.radiant_exposure_j_cm2::float8, m.lot_id, l.lot, l.use_by, m.container_id,
          c.code as container_code, m.not_scanned_reason, m.used_at, e.display_name as person
   from step_material m
   join product p on p.id = m.product_id
   join person e on e.id = m.person_id
   left join lot l on l.practice_id = m.practice_id and l.id = m.lot_id
   left join container c on c.practice_id = m.practice_id and c.id = m.container_id
   where m.practice_id = $1 and m.record_id = $2 order by m.used_at, m.id`,
);
export const listMaterials = (tx: Tx, recordId: string) =>
  tx.rows(materials, [tx.actor.practiceId, recordId]);

export interface NewMaterial {
  id: string;
  recordId: string;
  stepKey: string;
  productId: string;
  lotId: string | null;
  containerId: string | null;
  notScannedReason: string | null;
  patientId: string;
  tooth: string;
  usedAt: string | Date;
}
const material = statement(
  "insert-step-material",
  `insert into step_material (practice_id, id, record_id, step_key, product_id, lot_id,
     container_id,
     not_scanned_reason, patient_id, tooth, used_at, person_id)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
);
export const insertMaterial = (tx: Tx, one: NewMaterial) =>
  tx.rows(material, [
    tx.actor.practiceId,
    one.id,
    one.recordId,
    one.stepKey,
    one.productId,
    one.lotId,
    one.containerId,
    one.notScannedReason,
    one.patientId,
    one.tooth,
    one.usedAt,
    tx.actor.personId,
  ]);

export interface RecordLineRow {
  id: string;
  chart_number: string;
  tooth: string;
  technique_name: string;
  visit: "sealing" | "bonding";
  state: "draft" | "signed" | "superseded";
  started_at: Date;
  signed_at: Date | null;
  materials: number;
}
const listed = statement<RecordLineRow>(
  "list-records",
  `select r.id, a.chart_number, r.tooth, e.name as technique_name, r.visit, r.state, r.started_at,
          r.signed_at, (select count(*)::int from step_material m
                        where m.practice_id = r.practice_id and m.record_id = r.id) as materials
   from record r
   join patient a on a.practice_id = r.practice_id and a.id = r.patient_id
   join technique e on e.id = r.technique_id
   where r.practice_id = $1 and r.state <> 'superseded'
     and ($2::text is null or a.chart_number = $2)
     and ($3::text is null or r.tooth = $3)
     and ($4::text is null or exists (
       select 1 from step_material m
       join lot l on l.practice_id = m.practice_id and l.id = m.lot_id
       where m.practice_id = r.practice_id and m.record_id = r.id and l.lot = $4))
     and ($5::date is null or (r.started_at >= $5::date::timestamp at time zone $6
       and r.started_at < ($5::date + 1)::timestamp at time zone $6))
     and ($7::uuid is null or r.id < $7)
   order by r.id desc limit $8`,
);
/** Newest first: an id of version 7 orders by the time it was made. */
export const listRecords = (tx: Tx, query: RecordQuery) => {
  const { chart, tooth, lot, on, after, limit } = query;
  const asked = [chart ?? null, tooth ?? null, lot ?? null, on ?? null];
  const { practiceId, timeZone } = tx.actor;
  return tx.rows(listed, [practiceId, ...asked, timeZone, after ?? null, limit + 1]);
};
