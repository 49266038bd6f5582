import type { FindingCode, Verdict } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface PracticeRow {
  practice_id: string;
  organisation_id: string;
  time_zone: string;
  language: "en" | "de";
}
/** Asked outside of any practice, by the server itself. */
export const practicesText = "select * from list_practices()";

const open = statement<{ id: string }>(
  "list-open-trays",
  `select id from tray
   where practice_id = $1 and state in ('planned', 'setting', 'ready')
     and ($2::uuid[] is null or id = any($2))
   order by appointment_at, id`,
);
/** Trays on which nothing has been primed yet; all, or those named. */
export async function listOpenTrays(tx: Tx, named: readonly string[] | null): Promise<string[]> {
  return (await tx.rows(open, [tx.actor.practiceId, named])).map(({ id }) => id);
}

const last = statement<{ tray_id: string; verdict: Verdict }>(
  "list-tray-verdicts",
  "select tray_id, verdict from tray_verdict where practice_id = $1 and tray_id = any($2)",
);
/** What the check last said of each tray. */
export async function listVerdicts(
  tx: Tx,
  trayIds: readonly string[],
): Promise<ReadonlyMap<string, Verdict>> {
  const rows = await tx.rows(last, [tx.actor.practiceId, trayIds]);
  return new Map(rows.map((row) => [row.tray_id, row.verdict]));
}

/** What the check says of a tray now. */
export interface NewVerdict {
  trayId: string;
  verdict: Verdict;
  codes: readonly FindingCode[];
}
const keep = statement(
  "keep-tray-verdicts",
  `insert into tray_verdict (practice_id, tray_id, verdict, codes, checked_at)
   select $1, v."trayId", v.verdict, v.codes, $3
   from jsonb_to_recordset($2::jsonb) as v("trayId" uuid, verdict text, codes text[])
   on conflict on constraint tray_verdict_pk do update
     set verdict = excluded.verdict, codes = excluded.codes, checked_at = excluded.checked_at`,
);
export const keepVerdicts = (tx: Tx, verdicts: readonly NewVerdict[]) =>
  tx.rows(keep, [tx.actor.practiceId, JSON.stringify(verdicts), tx.at]);

export interface SeenFinding {
  trayId: string;
  code: FindingCode;
  level: "stop" | "caution";
}
const seen = statement(
  "keep-findings-seen",
  `insert into finding_seen (practice_id, tray_id, code, level, first_seen_at)
   select $1, f."trayId", f.code, f.level, $3
   from jsonb_to_recordset($2::jsonb) as f("trayId" uuid, code text, level text)
   on conflict on constraint finding_seen_pk do nothing`,
);
export const keepSeen = (tx: Tx, findings: readonly SeenFinding[]) =>
  tx.rows(seen, [tx.actor.practiceId, JSON.stringify(findings), tx.at]);

export interface NewChange extends NewVerdict {
  id: string;
  before: Verdict;
  cause: string;
}
const change = statement(
  "insert-verdict-changes",
  `insert into verdict_change (practice_id, id, tray_id, cause, before, after, codes, at)
   select $1, c.id, c."trayId", c.cause, c.before, c.verdict, c.codes, $3
   from jsonb_to_recordset($2::jsonb) as c(id uuid, "trayId" uuid, cause text, before text,
     verdict text, codes text[])`,
);
export const insertChanges = (tx: Tx, changes: readonly NewChange[]) =>
  tx.rows(change, [tx.actor.practiceId, JSON.stringify(changes), tx.at]);
