import { statement, type Tx } from "../db/transaction.ts";

export interface AuditRow {
  practice_id: string;
  sequence: number;
  at: Date;
  person_id: string | null;
  device_id: string | null;
  person: string | null;
  action: string;
  subject: string;
  change: string;
  previous_hash: Buffer;
  hash: Buffer;
}
const newest = statement<AuditRow>(
  "list-audit",
  `select e.*, p.display_name as person from audit_entry e left join person p on p.id = e.person_id
   where e.practice_id = $1 and ($2::bigint is null or e.sequence < $2)
   order by e.sequence desc limit $3`,
);
export const listAudit = (tx: Tx, before: number | undefined, limit: number) =>
  tx.rows(newest, [tx.actor.practiceId, before ?? null, limit]);

const following = statement<AuditRow>(
  "list-audit-after",
  `select e.*, null as person from audit_entry e
   where e.practice_id = $1 and e.sequence > $2 order by e.sequence limit $3`,
);
export const listAuditAfter = (tx: Tx, after: number, limit: number) =>
  tx.rows(following, [tx.actor.practiceId, after, limit]);

const head = statement<{ sequence: number; hash: Buffer }>(
  "audit-head",
  "select sequence, hash from audit_head where practice_id = $1",
);
export async function findHead(tx: Tx) {
  return (await tx.rows(head, [tx.actor.practiceId]))[0];
}

const ledger = statement<{ balances: number; differences: number }>(
  "verify-ledger",
  `with told as (
     select lot_id, location_id, sum(quantity)::int as quantity from (
       select lot_id, to_location_id as location_id, quantity from movement where practice_id = $1
       union all
       select lot_id, from_location_id, -quantity from movement where practice_id = $1
     ) each group by lot_id, location_id
   ), kept as (select lot_id, location_id, quantity from balance where practice_id = $1)
   select count(*)::int as balances,
          count(*) filter (where coalesce(told.quantity, 0) <> coalesce(kept.quantity, 0))::int
            + (select count(*)::int from container c where c.practice_id = $1
               and c.location_id <> coalesce((
                 select m.to_location_id from movement m
                 where m.practice_id = $1 and m.container_id = c.id
                 order by m.recorded_at desc, m.id desc limit 1), c.location_id))
            as differences
   from told full join kept using (lot_id, location_id)`,
);
/** How many balances there are, and how many differ from the sum of their movements. */
export async function compareLedger(tx: Tx) {
  return (await tx.rows(ledger, [tx.actor.practiceId]))[0]!;
}

const signed = statement<{ signed: number; faults: number }>(
  "verify-records",
  `select count(*)::int as signed,
          count(*) filter (where r.hash is distinct from sha256(convert_to(r.canonical, 'UTF8'))
            or not exists (select 1 from audit_entry e
              where e.practice_id = r.practice_id and e.action = 'record-signed'
                and e.subject = 'record:' || r.id
                and e.change = '{"hash":"' || encode(r.hash, 'hex') || '"}'))::int as faults
   from record r where r.practice_id = $1 and r.state <> 'draft'`,
);
/** How many records are signed, and how many are not what their signature says. */
export async function compareSigned(tx: Tx) {
  return (await tx.rows(signed, [tx.actor.practiceId]))[0]!;
}
