import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, isWithdrawn, type ContainerRow } from "../stock/container-row.ts";

const ending = statement<ContainerRow>(
  "list-ending",
  `select ${containerColumns}, ${isWithdrawn} as withdrawn from container_now c
   where c.practice_id = $1 and not c.outside and c.location_kind <> 'quarantine'
     and c.ends_on < $2::date + $3::int
   order by c.ends_on, c.code limit 100`,
);
export const listEnding = (tx: Tx, today: string, shortDatedDays: number) =>
  tx.rows(ending, [tx.actor.practiceId, today, shortDatedDays]);

export interface DraftRow {
  id: string;
  tray_id: string;
  chart_number: string;
  tooth: string;
  started_at: Date;
}
const drafts = statement<DraftRow>(
  "list-drafts",
  `select r.id, r.tray_id, a.chart_number, r.tooth, r.started_at
   from record r join patient a on a.practice_id = r.practice_id and a.id = r.patient_id
   where r.practice_id = $1 and r.state = 'draft' order by r.started_at limit 100`,
);
export const listDrafts = (tx: Tx) => tx.rows(drafts, [tx.actor.practiceId]);

export interface OpenWithdrawalRow {
  id: string;
  reference: string;
  received_at: Date;
  here: number;
}
const withdrawals = statement<OpenWithdrawalRow>(
  "list-open-withdrawals",
  `select w.id, w.reference, w.received_at,
          (select count(distinct c.id)::int from withdrawal_scope s
           join container_now c on c.practice_id = s.practice_id and c.product_id = s.product_id
             and s.lot in ('', c.lot) and not c.outside and c.location_kind <> 'quarantine'
           where s.practice_id = w.practice_id and s.withdrawal_id = w.id) as here
   from withdrawal w where w.practice_id = $1 and w.state <> 'closed' order by w.received_at`,
);
export const listOpenWithdrawals = (tx: Tx) => tx.rows(withdrawals, [tx.actor.practiceId]);

const unconfirmed = statement<{ id: string; name: string }>(
  "list-unconfirmed",
  `select id, name from product
   where organisation_id = $1 and confirmed_version is distinct from version
   order by name limit 100`,
);
export const listUnconfirmed = (tx: Tx) => tx.rows(unconfirmed, [tx.actor.organisationId]);
