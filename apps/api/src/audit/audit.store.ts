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
   ), passed as (
     select container_id, location_id, sum(step)::int as net from (
       select container_id, to_location_id as location_id, 1 as step from movement
       where practice_id = $1 and container_id is not null
       union all
       select container_id, from_location_id, -1 from movement
       where practice_id = $1 and container_id is not null
     ) each group by container_id, location_id
   ), kept as (select lot_id, location_id, quantity from balance where practice_id = $1)
   select count(*)::int as balances,
          count(*) filter (where coalesce(told.quantity, 0) <> coalesce(kept.quantity, 0))::int
            + (select count(*)::int from container c
               join location l on l.practice_id = $1 and l.id = c.location_id
               left join passed p on p.container_id = c.id and p.location_id = c.location_id
               where c.practice_id = $1
                 and (l.kind = 'supplier')::int + coalesce(p.net, 0) <> 1)
            as differences
   from told full join kept using (lot_id, location_id)`,
);
/**
 * How many balances there are, and how many differ from the sum of their movements. A container
 * starts at the supplier, so it stands where it came in once more than it went out, there counted
 * from one: no order of movements is asked for, since a clock can be set back.
 */
export async function compareLedger(tx: Tx) {
  return (await tx.rows(ledger, [tx.actor.practiceId]))[0]!;
}

const signed = statement<{ signed: number; faults: number }>(
  "verify-records",
  `with told as (
     select subject, change from audit_entry where practice_id = $1 and action = 'record-signed'
   ), kept as (
     select 'record:' || id as subject, id, canonical, hash, signed_by, signed_at,
            '{"hash":"' || encode(hash, 'hex') || '"}' as change,
            state = 'superseded' and id not in (
              select supersedes_id from record
              where practice_id = $1 and supersedes_id is not null and state <> 'draft') as hidden
     from record where practice_id = $1 and state <> 'draft'
   )
   select count(kept.id)::int as signed,
          count(*) filter (where case
            when kept.id is null or told.subject is null or kept.hidden then true
            when kept.hash <> sha256(convert_to(kept.canonical, 'UTF8')) then true
            else kept.canonical::jsonb ->> 'signedBy' is distinct from kept.signed_by::text
              or (kept.canonical::jsonb ->> 'signedAt')::timestamptz is distinct from kept.signed_at
              or kept.canonical::jsonb ->> 'rows' is distinct from
                 encode(sha256(convert_to(record_rows($1, kept.id), 'UTF8')), 'hex')
            end)::int as faults
   from told full join kept using (subject, change)`,
);
/**
 * How many records are signed, and how many signatures are not borne out: by the rows of the
 * record,
 * by what was signed, and by the audit chain, which also remembers a record that is gone.
 */
export async function compareSigned(tx: Tx) {
  return (await tx.rows(signed, [tx.actor.practiceId]))[0]!;
}
