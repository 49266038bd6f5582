/**
 * Which sealed teeth wait, among 100,000 signed records (say another number as an argument): half
 * are sealings, and all but 200 of these are bonded. Time in the database of the page and of the
 * count on Today, beside the plainest hand-written way to find the same teeth, which knows neither
 * versions nor what was taken off the list. With `plan` as a second argument, the plans.
 */
import pg from "pg";
import { waitingStatements } from "../../apps/api/src/waiting/waiting.store.ts";
import { median, withBenchDatabase } from "./bench-database.ts";

const runs = 21;
const left = 200;

const plain = `select s.id from record s where s.practice_id = $1 and s.visit = 'sealing'
    and s.state = 'signed' and not exists (select 1 from record b
      where b.practice_id = $1 and b.seal_id = s.id and b.state = 'signed')
  order by s.started_at, s.id limit 101`;

export async function run(words: string[]): Promise<void> {
  const wanted = Number(words[0] ?? 100_000);
  await withBenchDatabase(async ({ owner, appUrl }) => {
    const { rows } = await owner.query("select practice_id, organisation_id from practice");
    const { practice_id: practice, organisation_id: organisation } = rows[0];
    await addRecords(owner, practice, wanted / 2);
    await owner.query("vacuum analyze");
    const app = new pg.Client({ connectionString: appUrl });
    await app.connect();
    await app.query("begin");
    await app.query("select set_actor($1, $2, null, null)", [practice, organisation]);
    const asked = [practice, null, null, "Europe/Berlin", null, 101];
    const cases: [string, string, unknown[]][] = [
      ["the page", waitingStatements.waiting.text, asked],
      ["overdue, for Today", waitingStatements.overdue.text, [practice, "2026-06-01", "UTC"]],
      ["plain, without versions", plain, [practice]],
    ];
    const count = await owner.query("select count(*)::int as n from record");
    console.log(`waiting seals among ${count.rows[0].n} records, medians of ${runs}:`);
    for (const [name, text, values] of cases) {
      const times: number[] = [];
      for (let n = 0; n < runs; n++) {
        const explained = `explain (analyze, timing off, format json) ${text}`;
        const answer = await app.query({ text: explained, values });
        times.push(answer.rows[0]["QUERY PLAN"][0]["Execution Time"] as number);
      }
      console.log(`  ${name} ${median(times).toFixed(1)} ms`);
      if (words[1] !== "plan") continue;
      const plan = await app.query({ text: `explain (analyze, buffers) ${text}`, values });
      for (const row of plan.rows) console.log(`    ${row["QUERY PLAN"]}`);
    }
    await app.end();
  });
}

/** Sealings over three years, each but the last bonded two weeks later. */
async function addRecords(owner: pg.Client, practice: string, seals: number): Promise<void> {
  await owner.query("set session_replication_role = replica");
  await owner.query(
    `create temp table part as
       select s.id as sealing_technique, b.id as bonding_technique, l.id as place, e.id as person
       from technique s, technique b, location l, person e
       where s.key = 'seal-self-etch-two-step' and b.key = 'bond-restoration'
         and l.kind = 'operatory' and l.practice_id = $1 limit 1`,
    [practice],
  );
  await owner.query(
    `create temp table made as
       select gen_random_uuid() as patient, gen_random_uuid() as sealing_tray,
         gen_random_uuid() as seal, gen_random_uuid() as bonding_tray,
         gen_random_uuid() as bonding, n,
         timestamptz '2026-05-01 08:00Z' - (${seals} - n) * interval '30 minutes' as at
       from generate_series(1, ${seals}) n`,
  );
  await owner.query("insert into patient select $1, patient, 'W-' || n, at from made", [practice]);
  const each = [
    ["sealing", "made", "sealing_tray", "seal", "null::uuid", "at"],
    [
      "bonding",
      `(select * from made where n <= ${seals - left}) made`,
      "bonding_tray",
      "bonding",
      "seal",
      "at + interval '14 days'",
    ],
  ] as const;
  for (const [visit, from, tray, id, seal, at] of each) {
    await owner.query(
      `insert into tray select $1, ${tray}, patient, '16', ${visit}_technique, place, ${at},
         'cleared', person,
         ${at} from ${from}, part`,
      [practice],
    );
    await owner.query(
      `insert into tray_tooth (practice_id, tray_id, tooth, place)
         select $1, ${tray}, '16', 1 from ${from}`,
      [practice],
    );
    await owner.query(
      `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit, state,
         verdict, started_by, started_at, signed_by, signed_at, canonical, hash, seal_id)
       select $1, ${id}, ${tray}, patient, '16', ${visit}_technique, '${visit}', 'signed',
         '{}', person, ${at},
         person, ${at}, '{}', sha256('{}'), ${seal} from ${from}, part`,
      [practice],
    );
  }
  await owner.query("drop table part, made");
  await owner.query("set session_replication_role = origin");
}
