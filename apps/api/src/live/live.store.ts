import type { CheckStatistics } from "#contracts/live";
import type { FindingCode, Verdict } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface ChangeRow {
  id: string;
  tray_id: string;
  chart_number: string;
  teeth: string[];
  appointment_at: Date;
  before: Verdict;
  after: Verdict;
  codes: FindingCode[];
  cause: string;
  at: Date;
}
// Of each tray the latest change alone, as long as it is still what the check says.
const changes = statement<ChangeRow>(
  "list-verdict-changes",
  `select * from (
     select distinct on (c.tray_id) c.id, c.tray_id, a.chart_number, t.appointment_at, c.before,
       c.after, c.codes, c.cause, c.at,
       array(select o.tooth from tray_tooth o
         where o.practice_id = c.practice_id and o.tray_id = c.tray_id order by o.place) as teeth
     from verdict_change c
     join tray t on t.practice_id = c.practice_id and t.id = c.tray_id
       and t.state in ('planned', 'setting', 'ready')
     join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
     join tray_verdict v on v.practice_id = c.practice_id and v.tray_id = c.tray_id
       and v.verdict = c.after
     where c.practice_id = $1 and c.at > $2::timestamptz - interval '1 day'
     order by c.tray_id, c.at desc
   ) latest order by at desc, id limit 100`,
);
/** Whose verdict changed by itself within a day. */
export const listChanges = (tx: Tx) => tx.rows(changes, [tx.actor.practiceId, tx.at]);

// Priming started with a finding where its record's own check holds it.
const statistics = statement<CheckStatistics["lines"][number]>(
  "check-statistics",
  `select to_char(f.first_seen_at at time zone $3, 'YYYY-MM') as month, f.code, f.level,
          count(*)::int as seen,
          count(*) filter (where exists (
            select 1 from record r, jsonb_array_elements(r.verdict->'findings') g
            where r.practice_id = f.practice_id and r.tray_id = f.tray_id and r.version = 1
              and g->>'code' = f.code and g->>'level' = f.level))::int as "wentAhead"
   from finding_seen f
   where f.practice_id = $1
     and f.first_seen_at >= (date_trunc('month', $2::timestamptz at time zone $3)
       - ($4::int - 1) * interval '1 month') at time zone $3
   group by 1, 2, 3 order by 1 desc, seen desc, 2, 3`,
);
export const listStatistics = (tx: Tx, months: number) =>
  tx.rows(statistics, [tx.actor.practiceId, tx.at, tx.actor.timeZone, months]);
