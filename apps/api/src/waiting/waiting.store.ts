import type { Content, Contaminant, ProvisionalKind, RestorationKind, TrayState } from "#domain";
import type { ChangeWaiting, WaitingQuery, WaitingSeal } from "#contracts/waiting";
import { statement, type Tx } from "../db/transaction.ts";
import {
  isUnbonded,
  isOff,
  isSeal,
  offColumn,
  surfaceColumns,
  surfaceJoins,
  visitColumn,
} from "./seal-text.ts";

/** What was recorded of a sealed surface. */
export interface SurfaceRow {
  id: string;
  tooth: string;
  sealed_at: Date;
  provisional: ProvisionalKind;
  coated: boolean;
  separated: boolean;
  cement: { name: string; contents: Content[]; lot_id: string | null; lot: string | null } | null;
  contaminated: Contaminant[];
  bonded: boolean;
}
export interface WaitingRow extends SurfaceRow {
  tray_id: string;
  chart_number: string;
  restoration: RestorationKind | null;
  bonding_on: string | null;
  visit: { tray_id: string; appointment_at: string; state: TrayState } | null;
  off: {
    reason: NonNullable<WaitingSeal["off"]>["reason"];
    note: string;
    by: string;
    at: string;
  } | null;
}

const seal = `s.practice_id, s.id, s.tray_id, s.tooth, s.patient_id, s.started_at as sealed_at`;
const described = (from: string, bonded: string) => `select s.id, s.tray_id, s.tooth, s.sealed_at,
    a.chart_number, ${surfaceColumns}, plan.bonding_on, ${visitColumn}, ${offColumn},
    ${bonded} as bonded
  from ${from} s
  join patient a on a.practice_id = s.practice_id and a.id = s.patient_id
  join tray plan on plan.practice_id = s.practice_id and plan.id = s.tray_id
  ${surfaceJoins}
  order by s.sealed_at, s.id`;

// Days are civil days in the practice's zone, whatever their length.
const listText = (off: string) => `with seals as (
    select ${seal} from record s
    where s.practice_id = $1 and ${isSeal} and ${isUnbonded} and ${off}
      and ($2::text is null or s.patient_id = (
        select id from patient where practice_id = $1 and chart_number = $2))
  ), page as (
    select * from seals
    where ($3::date is null or sealed_at < $3::date::timestamp at time zone $4)
      and ($5::uuid is null or (sealed_at, id) > (select sealed_at, id from seals where id = $5))
    order by sealed_at, id limit $6)
  ${described("page", "false")}`;
const waiting = statement<WaitingRow>("list-waiting", listText(`not ${isOff}`));
const takenOff = statement<WaitingRow>("list-off-waiting", listText(isOff));
/** Overdue are those sealed before the day `overdueBefore`. */
export const listWaiting = (tx: Tx, query: WaitingQuery, overdueBefore: string) => {
  const { list, chart = null, after = null, limit } = query;
  const { practiceId, timeZone } = tx.actor;
  const before = list === "overdue" ? overdueBefore : null;
  const values = [practiceId, chart, before, timeZone, after, limit + 1];
  return tx.rows(list === "off" ? takenOff : waiting, values);
};

const overdue = statement<{ count: number; oldest: Date | null }>(
  "count-overdue",
  `with seals as materialized (
    select ${seal} from record s
    where s.practice_id = $1 and ${isSeal} and ${isUnbonded} and not ${isOff})
   select count(*)::int as count, min(sealed_at) as oldest from (
     select s.sealed_at, ${visitColumn} from seals s
     where s.sealed_at < $2::date::timestamp at time zone $3 offset 0) s
   where visit is null`,
);
/** Those sealed before a day for whose bonding no tray is planned, and the first of them. */
export async function countOverdue(tx: Tx, overdueBefore: string) {
  const { practiceId, timeZone } = tx.actor;
  return (await tx.rows(overdue, [practiceId, overdueBefore, timeZone]))[0]!;
}

// Any version may be asked for; the newest signed one answers.
const one = statement<WaitingRow>(
  "find-seal",
  `with found as (
    select ${seal}, not (${isUnbonded}) as bonded
    from record asked
    join record s on s.practice_id = asked.practice_id and s.tray_id = asked.tray_id
      and s.tooth = asked.tooth
    where asked.practice_id = $1 and asked.id = $2 and ${isSeal})
  ${described("found", "s.bonded")}`,
);
export async function findSeal(tx: Tx, id: string): Promise<WaitingRow | undefined> {
  return (await tx.rows(one, [tx.actor.practiceId, id]))[0];
}

const change = statement(
  "insert-waiting-change",
  `insert into waiting_change (practice_id, tray_id, tooth, sequence, waits, reason, note,
     person_id, at)
   select $1, $2, $3, coalesce(max(sequence), 0) + 1, $4, $5, $6, $7, $8
   from waiting_change where practice_id = $1 and tray_id = $2 and tooth = $3`,
);
export const insertWaitingChange = (
  tx: Tx,
  { tray_id: trayId, tooth }: Pick<WaitingRow, "tray_id" | "tooth">,
  told: ChangeWaiting,
) => {
  const { practiceId, personId } = tx.actor;
  const what = [told.waits, told.waits ? null : told.reason, told.note];
  return tx.rows(change, [practiceId, trayId, tooth, ...what, personId, tx.at]);
};

export interface ToothSealRow extends SurfaceRow {
  off: boolean;
  /** The record of this very tray builds on it. */
  linked: boolean;
  versions: string[];
}
// Every seal of the patient's teeth that are in this visit, those longest ago last.
const ofTray = statement<ToothSealRow>(
  "list-tray-seals",
  `with found as (
    select s.practice_id, s.id, s.tray_id, s.tooth, s.started_at as sealed_at,
      y.id as visit_id, not (${isUnbonded}) as bonded, ${isOff} as off
    from tray y
    join tray_tooth h on h.practice_id = y.practice_id and h.tray_id = y.id
    join record s on s.practice_id = y.practice_id and s.patient_id = y.patient_id
      and s.tooth = h.tooth
    where y.practice_id = $1 and y.id = $2 and ${isSeal})
   select s.id, s.tooth, s.sealed_at, ${surfaceColumns}, s.bonded, s.off,
     chain.versions, exists (
       select 1 from record b where b.practice_id = s.practice_id and b.tray_id = s.visit_id
         and b.tooth = s.tooth and b.state <> 'superseded'
         and b.seal_id = any(chain.versions)) as linked
   from found s
   cross join lateral (
     select array_agg(v.id) as versions from record v where v.practice_id = s.practice_id
       and v.tray_id = s.tray_id and v.tooth = s.tooth) chain
   ${surfaceJoins}
   order by s.sealed_at desc, s.id`,
);
export const listSealsForTray = (tx: Tx, trayId: string) =>
  tx.rows(ofTray, [tx.actor.practiceId, trayId]);

/** The statements over all seals, for whoever measures what they cost. */
export const waitingStatements = { waiting, overdue };
