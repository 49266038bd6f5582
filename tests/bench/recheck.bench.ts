/**
 * How long it takes to check all open trays again when a withdrawal arrives: 5,000 trays of five
 * containers each (say another number as an argument), read from the database, checked, and what
 * was found written back. Bar: the checking itself under a second on one core. Beside it, in the
 * same run, the reading alone and the pure check alone.
 */
import type pg from "pg";
import { checkTray } from "#domain";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { inRead } from "../../apps/api/src/db/transaction.ts";
import { actorOf, nobody } from "../../apps/api/src/people/begin-session.ts";
import { recheckTrays } from "../../apps/api/src/live/recheck.ts";
import { listOpenTrays } from "../../apps/api/src/live/recheck.store.ts";
import { loadTrays } from "../../apps/api/src/trays/tray-facts.store.ts";
import { median, withBenchDatabase } from "./bench-database.ts";

const runs = 5;
const kinds = ["primer", "adhesive", "flowable", "glycerin-gel", "separating-agent"];

export async function run(words: string[]): Promise<void> {
  const wanted = Number(words[0] ?? 5_000);
  await withBenchDatabase(async ({ owner, appUrl }) => {
    const { rows } = await owner.query("select practice_id, organisation_id from practice");
    const ids = rows[0] as { practice_id: string; organisation_id: string };
    await addTrays(owner, ids.practice_id, wanted);
    const db = await connect(appUrl);
    const person = { personId: nobody, deviceId: null };
    const actor = {
      ...actorOf({ practiceId: ids.practice_id, organisationId: ids.organisation_id, ...person }),
      timeZone: "Europe/Berlin",
    };
    const told = { actor, at: new Date(), trayIds: null, cause: "withdrawal" };
    const [whole, reading, checking]: number[][] = [[], [], []];
    for (let n = 0; n < runs; n += 1) {
      whole!.push(await timeOf(() => recheckTrays(db, told)));
      let loaded: Awaited<ReturnType<typeof loadTrays>> = [];
      const read = await timeOf(async () => {
        loaded = await inRead(db, told, async (tx) => {
          const open = await listOpenTrays(tx, null);
          return loadTrays(tx, open);
        });
      });
      reading!.push(read);
      if (loaded.length < wanted) throw new Error(`${loaded.length} trays, not ${wanted}`);
      const at = told.at.toISOString();
      checking!.push(
        await timeOf(() => {
          for (const { facts } of loaded) checkTray(facts, at);
        }),
      );
    }
    await db.destroy();
    const [all, read, checked] = [whole!, reading!, checking!].map(median) as [
      number,
      number,
      number,
    ];
    console.log(`${wanted} open trays of ${kinds.length} containers, medians of ${runs}:`);
    console.log(`  the checks alone ${ms(checked)} (bar 1,000 ms for 5,000)`);
    console.log(`  reading alone ${ms(read)}; read, checked and written ${ms(all)}`);
    console.log(`  ratio of the whole to the reading ${(all / read).toFixed(2)}`);
  });
}
const ms = (value: number): string => `${value.toFixed(0)} ms`;

async function timeOf(work: () => unknown): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/** Planned trays in bulk, each with containers of its own. */
async function addTrays(owner: pg.Client, practice: string, count: number): Promise<void> {
  const steps: [string, unknown[]][] = [
    ["set session_replication_role = replica", []],
    [
      `create temp table part as
       select t.id as technique, l.id as place, e.id as person, a.id as patient
       from technique t, location l, person e, patient a
       where t.key = 'seal-self-etch-two-step' and l.kind = 'operatory' and l.practice_id = $1
       limit 1`,
      [practice],
    ],
    [
      `create temp table chosen as
       select distinct on (p.kind) p.id as product, o.id as lot, p.kind from product p
       join lot o on o.product_id = p.id
       where o.practice_id = $1 and p.kind = any($2) order by p.kind, p.name`,
      [practice, kinds],
    ],
    [
      `create temp table new_tray as
       select gen_random_uuid() as id, n from generate_series(1, ${count}) n`,
      [],
    ],
    [
      `create temp table new_container as
       select gen_random_uuid() as id, n.id as tray, n.n, c.*
       from new_tray n cross join chosen c`,
      [],
    ],
    [
      `insert into container (practice_id, id, code, lot_id, product_id, location_id, created_at)
       select $1, n.id, upper(substr(md5(n.id::text), 1, 12)), lot, product, place, now()
       from new_container n, part`,
      [practice],
    ],
    [
      `insert into tray (practice_id, id, patient_id, tooth, technique_id, location_id,
         appointment_at, state, created_by, created_at)
       select $1, n.id, patient, '16', technique, place, now() + n.n * interval '1 minute', 'ready',
         person, now() from new_tray n, part`,
      [practice],
    ],
    [
      `insert into tray_tooth (practice_id, tray_id, tooth, place, provisional)
       select $1, id, '16', 1, 'resin' from new_tray`,
      [practice],
    ],
    [
      `insert into tray_item (practice_id, id, tray_id, container_id, product_id, barcode, scanned,
         placed_by, placed_at)
       select $1, gen_random_uuid(), tray, n.id, product, 'x', '{}', person, now()
       from new_container n, part`,
      [practice],
    ],
    ["drop table part, chosen, new_tray, new_container", []],
    ["set session_replication_role = origin", []],
    ["vacuum analyze", []],
  ];
  for (const [text, values] of steps) await owner.query(text, values);
}
