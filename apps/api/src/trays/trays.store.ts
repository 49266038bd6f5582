import type { Content, Finding, LocationKind, TrayFacts } from "#domain";
import type { Reading } from "#contracts/stock";
import type { VisitTooth } from "#contracts/trays";
import { statement, type Tx } from "../db/transaction.ts";
import { otherTray } from "./other-tray.ts";

const patient = statement<{ id: string }>(
  "patient-for-chart",
  `insert into patient (practice_id, id, chart_number, created_at) values ($1, $2, $3, $4)
   on conflict on constraint patient_chart_number_taken do nothing`,
);
const patientFound = statement<{ id: string }>(
  "find-patient",
  "select id from patient where practice_id = $1 and chart_number = $2",
);
/** The patient of a chart number; a new one where it is seen for the first time. */
export async function patientForChart(tx: Tx, chartNumber: string, newId: string): Promise<string> {
  const { practiceId } = tx.actor;
  await tx.rows(patient, [practiceId, newId, chartNumber, tx.at]);
  return (await tx.rows(patientFound, [practiceId, chartNumber]))[0]!.id;
}

const allergies = statement<{ chart_number: string; before: Content[] }>(
  "change-allergies",
  `update patient p set allergies = $3
   from (select allergies from patient where practice_id = $1 and id = $2 for update) old
   where p.practice_id = $1 and p.id = $2
   returning p.chart_number, old.allergies as before`,
);
/** What was on the list before; undefined where there is no such patient. */
export async function updateAllergies(tx: Tx, id: string, list: readonly Content[]) {
  return (await tx.rows(allergies, [tx.actor.practiceId, id, list]))[0];
}

const tray = statement(
  "insert-tray",
  `insert into tray (practice_id, id, patient_id, tooth, technique_id, location_id, appointment_at,
                     bonding_on, state, created_by, created_at, preferred)
   values ($1, $2, $3, $4, $5, $6, $7, $8, 'planned', $9, $10, $11)`,
);
const teeth = statement(
  "insert-tray-teeth",
  `insert into tray_tooth (practice_id, tray_id, tooth, place, mode, provisional, undercut,
     surfaces, restoration)
   select $1, $2, o.tooth, o.place, o.mode, o.provisional, o.undercut, o.surfaces, o.restoration
   from jsonb_to_recordset($3::jsonb) as o(tooth text, place integer, mode text, provisional text,
     undercut boolean, surfaces text, restoration text)`,
);
export const insertTray = (
  tx: Tx,
  one: {
    id: string;
    patientId: string;
    teeth: readonly VisitTooth[];
    techniqueId: string;
    locationId: string;
    appointmentAt: string;
    bondingOn: string | null;
    preferred: TrayFacts["preferred"];
  },
) => {
  const { practiceId, personId } = tx.actor;
  const [first] = one.teeth;
  const place = [first!.tooth, one.techniqueId, one.locationId, one.appointmentAt, one.bondingOn];
  const placed = one.teeth.map((tooth, index) => ({ ...tooth, place: index + 1 }));
  return Promise.all([
    tx.rows(tray, [
      ...[practiceId, one.id, one.patientId, ...place, personId, tx.at],
      JSON.stringify(one.preferred),
    ]),
    tx.rows(teeth, [practiceId, one.id, JSON.stringify(placed)]),
  ]);
};

interface VisitRow {
  id: string;
  chart_number: string;
  appointment_at: Date;
}
const visitsBetween = statement<VisitRow>(
  "list-visits",
  `select t.id, a.chart_number, t.appointment_at from tray t
   join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
   where t.practice_id = $1 and t.appointment_at >= $2::date::timestamp at time zone $4
     and t.appointment_at < ($3::date + 1)::timestamp at time zone $4
   order by t.appointment_at, t.id limit 2000`,
);
export const listVisits = (tx: Tx, { from, to }: { from: string; to: string }) =>
  tx.rows(visitsBetween, [tx.actor.practiceId, from, to, tx.actor.timeZone]);

const planning = statement(
  "lock-planning",
  "select 1 from practice where practice_id = $1 for no key update",
);
/** Two lists planned at the same moment wait for each other: no visit of both comes twice. */
export const lockPlanning = (tx: Tx) => tx.rows(planning, [tx.actor.practiceId]);

const sameVisit = statement<{ id: string }>(
  "find-visit",
  `select t.id from tray t
   join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
   where t.practice_id = $1 and a.chart_number = $2 and t.appointment_at = $3
   order by t.created_at limit 1`,
);
/** The tray of a chart at that very time. */
export async function findVisit(tx: Tx, chart: string, at: string): Promise<string | undefined> {
  return (await tx.rows(sameVisit, [tx.actor.practiceId, chart, at]))[0]?.id;
}

const visit = statement(
  "change-visit",
  `update tray set tooth = $3, technique_id = $4, location_id = $5, appointment_at = $6,
     bonding_on = $7
   where practice_id = $1 and id = $2`,
);
const noTeeth = statement(
  "remove-tray-teeth",
  "delete from tray_tooth where practice_id = $1 and tray_id = $2",
);
export type Visit = Omit<Parameters<typeof insertTray>[1], "patientId" | "preferred">;
export const updateVisit = (tx: Tx, one: Visit) => {
  const { practiceId } = tx.actor;
  const [first] = one.teeth;
  const place = [first!.tooth, one.techniqueId, one.locationId, one.appointmentAt, one.bondingOn];
  const placed = one.teeth.map((tooth, index) => ({ ...tooth, place: index + 1 }));
  return Promise.all([
    tx.rows(visit, [practiceId, one.id, ...place]),
    tx.rows(noTeeth, [practiceId, one.id]),
    tx.rows(teeth, [practiceId, one.id, JSON.stringify(placed)]),
  ]);
};

const state = statement(
  "set-tray-state",
  "update tray set state = $3 where practice_id = $1 and id = $2 and state <> $3",
);
export const updateTrayState = (tx: Tx, id: string, next: string) =>
  tx.rows(state, [tx.actor.practiceId, id, next]);

const item = statement(
  "insert-tray-item",
  `insert into tray_item (practice_id, id, tray_id, container_id, product_id, step_key, barcode,
                          scanned, placed_by, placed_at, scanned_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)`,
);
export interface NewTrayItem {
  id: string;
  trayId: string;
  containerId: string | null;
  productId: string | null;
  stepKey: string | null;
  barcode: string;
  scanned: Reading;
  /** The tablet's own time, where it was sent later. */
  scannedAt: string | null;
}
export const insertTrayItem = (tx: Tx, one: NewTrayItem) => {
  const what = [one.id, one.trayId, one.containerId, one.productId, one.stepKey, one.barcode];
  const { practiceId, personId } = tx.actor;
  const when = [personId, tx.at, one.scannedAt];
  return tx.rows(item, [practiceId, ...what, JSON.stringify(one.scanned), ...when]);
};

const removal = statement<{ id: string }>(
  "remove-tray-item",
  `update tray_item set removed_by = $4, removed_at = $5
   where practice_id = $1 and tray_id = $2 and id = $3 and removed_at is null returning id`,
);
/** False where it is not, or no longer, on the tray. */
export async function removeTrayItem(tx: Tx, trayId: string, itemId: string): Promise<boolean> {
  const { practiceId, personId } = tx.actor;
  return (await tx.rows(removal, [practiceId, trayId, itemId, personId, tx.at])).length === 1;
}

export interface ReturnRow {
  container_id: string;
  from_id: string | null;
  from_name: string | null;
  now_id: string;
  now_name: string;
  now_kind: LocationKind;
  other_id: string | null;
  other_name: string | null;
  other_room_id: string | null;
  other_room_name: string | null;
}
const returns = statement<ReturnRow>(
  "tray-returns",
  `select i.container_id, l.id as from_id, l.name as from_name, n.id as now_id, n.name as now_name,
     n.kind as now_kind, o.id as other_id, o.name as other_name, o.room_id as other_room_id,
     o.room_name as other_room_name
   from tray_item i
   join tray t on t.practice_id = i.practice_id and t.id = i.tray_id
   join container c on c.practice_id = i.practice_id and c.id = i.container_id
   join location n on n.practice_id = c.practice_id and n.id = c.location_id
   left join lateral (
     select m.from_location_id from movement m
     where m.practice_id = i.practice_id and m.container_id = i.container_id
       and m.reason = 'tray' and m.to_location_id = t.location_id
       and m.recorded_at >= t.created_at
     order by m.recorded_at desc, m.id desc limit 1) v on true
   left join location l on l.practice_id = i.practice_id and l.id = v.from_location_id
   left join lateral (${otherTray("i")}) o on true
   where i.practice_id = $1 and i.tray_id = $2 and i.removed_at is null
   order by i.placed_at, i.id`,
);
/** Of each container on a tray where it stood before, where it is, and who waits for it. */
export const listReturns = (tx: Tx, trayId: string) =>
  tx.rows(returns, [tx.actor.practiceId, trayId]);

const override = statement(
  "insert-override",
  `insert into finding_override (practice_id, id, tray_id, code, subject, finding, reason,
     person_id, at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
);
export const insertOverride = (
  tx: Tx,
  one: { id: string; trayId: string; subject: string; finding: Finding; reason: string },
) => {
  const { practiceId, personId } = tx.actor;
  const what = [one.finding.code, one.subject, JSON.stringify(one.finding), one.reason];
  return tx.rows(override, [practiceId, one.id, one.trayId, ...what, personId, tx.at]);
};

/** The statements of a scan's effect, for whoever measures what they cost alone. */
export const scanStatements = { item, state };
