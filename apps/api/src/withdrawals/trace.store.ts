/** The trace of a lot: each question one statement, answered from an index. */
import type { LocationKind, ProductKind, TrayState } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, isWithdrawn, type ContainerRow } from "../stock/container-row.ts";

export interface LotRow {
  lot_id: string;
  lot: string;
  use_by: string | null;
  use_by_precision: "day" | "month" | null;
  product_id: string;
  product_name: string;
  product_kind: ProductKind;
  identifiers: string[];
  withdrawn: boolean;
}
const lotText = `select c.id as lot_id, c.lot, c.use_by, c.use_by_precision, p.id as product_id,
    p.name as product_name, p.kind as product_kind,
    array(select i.value from product_identifier i where i.product_id = p.id order by i.value)
      as identifiers,
    ${isWithdrawn} as withdrawn
  from lot c join product p on p.id = c.product_id
  where c.practice_id = $1`;

const byText = statement<LotRow>(
  "lots-by-text",
  `${lotText} and c.lot = $2 and ($3::uuid is null or c.product_id = $3) order by p.name, c.id`,
);
export const listLotsByText = (tx: Tx, lot: string, productId: string | null) =>
  tx.rows(byText, [tx.actor.practiceId, lot, productId]);

const byProduct = statement<LotRow>(
  "lots-by-product",
  `${lotText} and c.product_id = $2 order by c.use_by, c.lot limit 500`,
);
export const listLotsOfProduct = (tx: Tx, productId: string) =>
  tx.rows(byProduct, [tx.actor.practiceId, productId]);

const byIds = statement<LotRow>(
  "lots-by-id",
  `${lotText} and c.id = any($2) order by p.name, c.lot`,
);
export const listLotsById = (tx: Tx, ids: readonly string[]) =>
  tx.rows(byIds, [tx.actor.practiceId, ids]);

const lookAlikes = statement<{ lot_id: string; lot: string; product_name: string }>(
  "lots-that-look-alike",
  `select l.id as lot_id, l.lot, p.name as product_name
   from lot l join product p on p.id = l.product_id
   where l.practice_id = $1 and l.lot_look = $2 and l.lot <> $3
   order by p.name, l.lot limit 50`,
);
export const listLookAlikes = (tx: Tx, look: string, lot: string) =>
  tx.rows(lookAlikes, [tx.actor.practiceId, look, lot]);

export interface BalanceRow {
  lot_id: string;
  kind: LocationKind;
  quantity: number;
}
const balances = statement<BalanceRow & { location_id: string; location_name: string }>(
  "trace-balances",
  `select b.lot_id, b.location_id, w.name as location_name, w.kind, b.quantity
   from balance b join location w on w.practice_id = b.practice_id and w.id = b.location_id
   where b.practice_id = $1 and b.lot_id = any($2) and b.quantity <> 0
   order by w.outside, w.name`,
);
export const listBalancesOfLots = (tx: Tx, lotIds: readonly string[]) =>
  tx.rows(balances, [tx.actor.practiceId, lotIds]);

const here = statement<ContainerRow>(
  "trace-containers-here",
  `select ${containerColumns}, ${isWithdrawn} as withdrawn from container_now c
   where c.practice_id = $1 and c.lot_id = any($2) and not c.outside
   order by c.location_name, c.ends_on, c.code`,
);
export const listContainersHere = (tx: Tx, lotIds: readonly string[]) =>
  tx.rows(here, [tx.actor.practiceId, lotIds]);

export interface PlannedRow {
  lot_id: string;
  tray_id: string;
  chart_number: string;
  tooth: string;
  appointment_at: Date;
  state: TrayState;
  code: string;
}
const planned = statement<PlannedRow>(
  "trace-planned",
  `select c.lot_id, t.id as tray_id, a.chart_number, t.tooth, t.appointment_at, t.state, c.code
   from container c
   join tray_item i on i.practice_id = c.practice_id and i.container_id = c.id
     and i.removed_at is null
   join tray t on t.practice_id = i.practice_id and t.id = i.tray_id and t.state <> 'cleared'
   join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
   where c.practice_id = $1 and c.lot_id = any($2)
   order by t.appointment_at, t.id, c.code`,
);
export const listPlanned = (tx: Tx, lotIds: readonly string[]) =>
  tx.rows(planned, [tx.actor.practiceId, lotIds]);

export interface ToothRow {
  lot_id: string;
  chart_number: string;
  patient_id: string;
  tooth: string;
  record_id: string;
  record_state: string;
  visit: string;
  step_key: string;
  code: string;
  used_at: Date;
}
const teeth = statement<ToothRow>(
  "trace-teeth",
  `select m.lot_id, a.chart_number, m.patient_id, m.tooth, m.record_id, r.state as record_state,
          r.visit, m.step_key, c.code, m.used_at
   from step_material m
   join patient a on a.practice_id = m.practice_id and a.id = m.patient_id
   join record r on r.practice_id = m.practice_id and r.id = m.record_id
   join container c on c.practice_id = m.practice_id and c.id = m.container_id
   where m.practice_id = $1 and m.lot_id = any($2) and r.state <> 'superseded'
   order by m.used_at, m.id`,
);
export const listTeeth = (tx: Tx, lotIds: readonly string[]) =>
  tx.rows(teeth, [tx.actor.practiceId, lotIds]);

export interface PatientMaterialRow {
  record_id: string;
  record_state: string;
  visit: string;
  started_at: Date;
  tooth: string;
  step_key: string | null;
  product_name: string;
  lot: string | null;
  lot_id: string | null;
  use_by: string | null;
  code: string | null;
  used_at: Date;
}
const ofPatient = statement<PatientMaterialRow>(
  "trace-patient",
  `select r.id as record_id, r.state as record_state, r.visit, r.started_at, r.tooth, m.step_key,
          p.name as product_name, l.lot, m.lot_id, l.use_by, c.code, m.used_at
   from patient a
   join record r on r.practice_id = a.practice_id and r.patient_id = a.id
     and r.state <> 'superseded'
   left join step_material m on m.practice_id = r.practice_id and m.record_id = r.id
   left join product p on p.id = m.product_id
   left join lot l on l.practice_id = m.practice_id and l.id = m.lot_id
   left join container c on c.practice_id = m.practice_id and c.id = m.container_id
   where a.practice_id = $1 and a.chart_number = $2 and ($3::text is null or r.tooth = $3)
   order by r.started_at desc, r.id, m.used_at, m.id`,
);
export const listPatientMaterials = (tx: Tx, chart: string, tooth: string | null) =>
  tx.rows(ofPatient, [tx.actor.practiceId, chart, tooth]);

const patient = statement<{ id: string }>(
  "find-patient-by-chart",
  "select id from patient where practice_id = $1 and chart_number = $2",
);
export const findPatient = (tx: Tx, chart: string) =>
  tx.rows(patient, [tx.actor.practiceId, chart]);

export interface UnscannedRow {
  lot_id: string;
  chart_number: string;
  patient_id: string;
  tooth: string;
  record_id: string;
  record_state: string;
  visit: string;
  step_key: string;
  used_at: Date;
  candidates: number;
}
// Where the scan was missed: the containers of that product that were open in that room at that
// moment. One of them and no other is an inference; several are a possibility each.
const unscanned = statement<UnscannedRow>(
  "trace-unscanned",
  `select o.lot_id, a.chart_number, m.patient_id, m.tooth, m.record_id, r.state as record_state,
          r.visit, m.step_key, m.used_at, o.candidates
   from step_material m
   join patient a on a.practice_id = m.practice_id and a.id = m.patient_id
   join record r on r.practice_id = m.practice_id and r.id = m.record_id and r.state <> 'superseded'
   join tray t on t.practice_id = r.practice_id and t.id = r.tray_id
   join lateral (
     select distinct c.lot_id, count(*) over () ::int as candidates
     from container c
     where c.practice_id = $1 and c.product_id = m.product_id
       and c.opened_on <= (m.used_at at time zone $4)::date
       and t.location_id = (
         select v.to_location_id from movement v
         where v.practice_id = $1 and v.container_id = c.id and v.occurred_at <= m.used_at
         order by v.occurred_at desc, v.recorded_at desc, v.id desc limit 1)
   ) o on o.lot_id = any($2)
   where m.practice_id = $1 and m.lot_id is null and m.product_id = any($3)
   order by m.used_at, m.id`,
);
export const listUnscanned = (tx: Tx, lotIds: readonly string[], productIds: readonly string[]) =>
  tx.rows(unscanned, [tx.actor.practiceId, lotIds, productIds, tx.actor.timeZone]);

/** The statement that finds teeth and patients, for whoever measures what it costs alone. */
export const traceStatements = { teeth };
