/**
 * P3: the trace of one lot with 90 uses among a million step materials (say another number as an
 * argument). Time in the database of the statement that finds teeth and patients, beside the best
 * hand-written SQL for the same answer, nested index-only reads and nothing else, and beside a bare
 * read of the index without chart numbers. Then the whole trace as it is served, with a tenth of
 * the history and with all of it.
 */
import pg from "pg";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { actorOf, nobody } from "../../apps/api/src/people/begin-session.ts";
import { traceStatements } from "../../apps/api/src/withdrawals/trace.store.ts";
import { TraceService } from "../../apps/api/src/withdrawals/trace.service.ts";
import { median, withBenchDatabase, type BenchDatabase } from "./bench-database.ts";

const usesOfTheLot = 90;
const runs = 41;

const indexOnly = `select patient_id, record_id, container_id, tooth, step_key, used_at
  from step_material where practice_id = $1 and lot_id = ($2::uuid[])[1]`;
const handWritten = `select m.lot_id, a.chart_number, m.patient_id, m.tooth, m.record_id, r.state,
    r.visit, m.step_key, c.code, m.used_at
  from (${indexOnly.replace("select", "select lot_id,")} offset 0) m
  cross join lateral (select chart_number from patient
    where practice_id = $1 and id = m.patient_id limit 1) a
  cross join lateral (select state, visit from record
    where practice_id = $1 and id = m.record_id and state <> 'superseded' limit 1) r
  cross join lateral (select code from container
    where practice_id = $1 and id = m.container_id limit 1) c
  order by m.used_at`;

export async function run(words: string[]): Promise<void> {
  const wanted = Number(words[0] ?? 1_000_000);
  await withBenchDatabase(async (database) => {
    const { owner } = database;
    const { rows } = await owner.query("select practice_id, organisation_id from practice");
    const practice = rows[0] as { practice_id: string; organisation_id: string };
    const lot = await addLot(owner, practice.practice_id);
    await addHistory(owner, practice.practice_id, wanted / 10);
    const small = await measure(database, practice, lot);
    await addHistory(owner, practice.practice_id, wanted - wanted / 10);
    const large = await measure(database, practice, lot);
    const count = await owner.query("select count(*)::int as n from step_material");
    console.log(`trace of a lot with ${usesOfTheLot} uses, medians of ${runs}, in the database:`);
    console.log(
      `  among ${count.rows[0].n} step materials: teeth and patients ${ms(large.teeth)},`,
    );
    const ratio = (large.teeth / large.written).toFixed(2);
    console.log(`  hand-written ${ms(large.written)}, ratio ${ratio} (bar 1.5);`);
    console.log(`  the bare index rows without chart numbers ${ms(large.bare)}`);
    console.log(`  whole trace as served ${ms(large.whole)}; with a tenth of the history`);
    console.log(`  ${ms(small.whole)}, ratio ${(large.whole / small.whole).toFixed(2)}`);
  });
}
const ms = (value: number): string => `${value.toFixed(3)} ms`;

type Practice = { practice_id: string; organisation_id: string };

async function measure(database: BenchDatabase, practice: Practice, lot: string) {
  const { owner } = database;
  await owner.query("vacuum analyze");
  const { rows } = await owner.query("select id from lot where lot = $1", [lot]);
  const values = [practice.practice_id, [rows[0].id]];
  const app = new pg.Client({ connectionString: database.appUrl });
  await app.connect();
  await app.query("begin");
  await app.query("select set_actor($1, $2, null, null)", [
    practice.practice_id,
    practice.organisation_id,
  ]);
  const timeOf = async (text: string): Promise<number> => {
    const explain = `explain (analyze, timing off, format json) ${text}`;
    const answer = await app.query({ text: explain, values });
    return answer.rows[0]["QUERY PLAN"][0]["Execution Time"] as number;
  };
  const bare: number[] = [];
  const written: number[] = [];
  const teeth: number[] = [];
  for (let n = 0; n < runs; n++) {
    bare.push(await timeOf(indexOnly));
    written.push(await timeOf(handWritten));
    teeth.push(await timeOf(traceStatements.teeth.text));
  }
  await app.end();
  const whole = await timeService(database, practice, lot);
  return { bare: median(bare), written: median(written), teeth: median(teeth), whole };
}

async function timeService(database: BenchDatabase, practice: Practice, lot: string) {
  const db = await connect(database.appUrl);
  const service = new TraceService(db);
  const ids = { practiceId: practice.practice_id, organisationId: practice.organisation_id };
  const actor = actorOf({ ...ids, personId: nobody, deviceId: null });
  const times: number[] = [];
  for (let n = 0; n < runs; n++) {
    const start = performance.now();
    const { lots } = await service.traceStock({ actor, at: new Date(), query: { lot } });
    times.push(performance.now() - start);
    if (lots[0]?.teeth.length !== usesOfTheLot) throw new Error("the trace is not complete");
  }
  await db.destroy();
  return median(times);
}

/** The traced lot: one container, used in 90 records of 90 patients. */
async function addLot(owner: pg.Client, practice: string): Promise<string> {
  await addRows(owner, practice, {
    records: usesOfTheLot,
    perRecord: 1,
    lots: 1,
    prefix: "TRACED",
  });
  return "TRACED-1";
}

async function addHistory(owner: pg.Client, practice: string, materials: number): Promise<void> {
  const perRecord = 6;
  const records = Math.round(materials / perRecord);
  const lots = Math.max(1, Math.round(materials / usesOfTheLot));
  await addRows(owner, practice, { records, perRecord, lots, prefix: `H${materials}` });
}

/** Past visits in bulk: what the ledger's triggers would refuse to be hurried with is left out. */
async function addRows(
  owner: pg.Client,
  practice: string,
  told: { records: number; perRecord: number; lots: number; prefix: string },
): Promise<void> {
  await owner.query("set session_replication_role = replica");
  await owner.query(
    `create temp table part as
       select p.id as product, t.id as technique, l.id as place, e.id as person
       from product p, technique t, location l, person e
       where p.name = 'Alder Primer' and t.key = 'seal-self-etch-two-step' and l.kind = 'operatory'
         and l.practice_id = $1 limit 1`,
    [practice],
  );
  const steps: [string, unknown[]][] = [
    [
      `create temp table new_lot as
       select gen_random_uuid() as id, gen_random_uuid() as container, n
       from generate_series(1, ${told.lots}) n`,
      [],
    ],
    [
      `insert into lot
       select $1, n.id, product, $2 || '-' || n, $2 || n, $2 || n, '2030-01-01', 'day', now()
       from new_lot n, part`,
      [practice, told.prefix],
    ],
    [
      `insert into container (practice_id, id, code, lot_id, product_id, location_id, created_at)
       select $1, n.container, upper(substr(md5($2 || n), 1, 11)), n.id, product, place, now()
       from new_lot n, part`,
      [practice, told.prefix],
    ],
    [
      `create temp table new_record as select gen_random_uuid() as id, gen_random_uuid() as patient,
         gen_random_uuid() as tray, n from generate_series(1, ${told.records}) n`,
      [],
    ],
    [
      "insert into patient select $1, patient, $2 || n, now() from new_record",
      [practice, told.prefix],
    ],
    [
      `insert into tray
       select $1, n.tray, n.patient, '16', technique, place, now(), 'cleared', person, now()
       from new_record n, part`,
      [practice],
    ],
    [
      `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit, state,
         verdict, started_by, started_at)
       select $1, n.id, n.tray, n.patient, '16', technique, 'sealing', 'draft', '{}', person, now()
       from new_record n, part`,
      [practice],
    ],
    [
      `insert into step_material
       select $1, gen_random_uuid(), r.id, 'prime', product, l.id, l.container, null, r.patient,
              '16', now(), person
       from new_record r cross join generate_series(1, ${told.perRecord}) s
       join new_lot l on l.n = 1 + (r.n * ${told.perRecord} + s) % ${told.lots}, part`,
      [practice],
    ],
    ["drop table part, new_lot, new_record", []],
  ];
  for (const [text, values] of steps) await owner.query(text, values);
  await owner.query("set session_replication_role = origin");
}
