import { afterAll, beforeAll, beforeEach, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { chooseSeed, seeded } from "../helpers/seeded.ts";
import { act, addContainer, addLot, asAssistant, asDentist, move, tamper } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";
import { openVerifier, type Verifier } from "./verification.ts";

let it: Scene;
let verifier: Verifier;

beforeAll(async () => {
  it = await openScene();
  verifier = await openVerifier(it);
  await act(it.app, asAssistant(it.here), async (client) => {
    for (let i = 0; i < 4; i++) {
      const lot = await addLot(client, it.here, `lot ${i}`);
      await move(client, it.here, { lot, from: "supplier", to: "store", quantity: 10 + i });
      await move(client, it.here, { lot, from: "store", to: "operatory", quantity: 3 + i });
      const container = await addContainer(client, it.here, { code: `BOX${i}00`, lot });
      await move(client, it.here, { lot, container, from: "supplier", to: "store" });
      await move(client, it.here, { lot, container, from: "store", to: "operatory" });
    }
  });
  for (const table of kept) await it.owner.query(`create table kept_${table} as table ${table}`);
});
afterAll(async () => {
  await verifier.close();
  await it.close();
});

const kept = ["movement", "balance", "container", "record", "record_event", "step_material"];
const restore = () =>
  tamper(it.owner, async (owner) => {
    for (const table of kept) {
      await owner.query(`delete from ${table}`);
      await owner.query(`insert into ${table} select * from kept_${table}`);
    }
  });
beforeEach(restore);

const verify = () => verifier.verify(it.here);

test("what nobody touched is whole, even where the clock went back between two movements", async () => {
  expect(await verify()).toMatchObject({
    ok: true,
    ledger: { differences: 0 },
    records: { signed: 1, faults: 0 },
  });
  await tamper(it.owner, (owner) =>
    owner.query(
      `update movement m set recorded_at = recorded_at - n * interval '1 day',
         occurred_at = occurred_at - n * interval '1 day'
       from (select id, row_number() over (order by id) as n from movement) numbered
       where numbered.id = m.id`,
    ),
  );
  expect(await verify()).toMatchObject({ ok: true });
});

describe("the ledger", () => {
  /** Each takes a number to choose a row by, and changes what is counted. */
  const attacks: Record<string, (owner: pg.Client, n: number) => Promise<pg.QueryResult>> = {
    "a movement's quantity": (owner, n) =>
      owner.query(`update movement set quantity = quantity + 1 where id = ${movement(n, "null")}`, [
        it.here.id,
      ]),
    "a movement's lot": (owner, n) =>
      owner.query(
        `update movement m set lot_id = (select l.id from lot l where l.practice_id = $1
           and l.id <> m.lot_id limit 1) where id = ${movement(n, "null")}`,
        [it.here.id],
      ),
    "where a movement went": (owner, n) =>
      owner.query(`update movement set to_location_id = $2 where id = ${movement(n)}`, [
        ...[it.here.id, it.here.places.lost],
      ]),
    "where a movement came from": (owner, n) =>
      owner.query(`update movement set from_location_id = $2 where id = ${movement(n)}`, [
        ...[it.here.id, it.here.places.lost],
      ]),
    "a movement that is gone": (owner, n) =>
      owner.query(`delete from movement where id = ${movement(n)}`, [it.here.id]),
    "a movement that was slipped in": (owner, n) =>
      owner.query(
        `insert into movement (practice_id, id, lot_id, from_location_id, to_location_id, quantity,
           reason, occurred_at, recorded_at, person_id)
         select practice_id, gen_random_uuid(), lot_id, from_location_id, to_location_id,
           1, 'moved',
           now(), now(), person_id from movement where id = ${movement(n)}`,
        [it.here.id],
      ),
    "a balance": (owner, n) =>
      owner.query(`update balance set quantity = quantity + 1 where ${balance(n)}`, [it.here.id]),
    "a balance that is gone": (owner, n) =>
      owner.query(`delete from balance where ${balance(n)}`, [it.here.id]),
    "a container's place": (owner, n) =>
      owner.query(
        `update container set location_id = $2 where id = (select id from container
           where practice_id = $1 order by id offset ${n % 5} limit 1)`,
        [it.here.id, it.here.places.quarantine],
      ),
    "a container that nobody received": (owner, n) =>
      addContainer(owner, it.here, { code: `NEW${n}0`, at: "store" }).then(
        () => ({ rowCount: 1 }) as pg.QueryResult,
      ),
  };
  const movement = (n: number, container = "container_id") =>
    `(select id from movement where practice_id = $1
      and container_id is not distinct from ${container}
      order by id offset ${n % 8} limit 1)`;
  const balance = (n: number) =>
    `(lot_id, location_id) = (select lot_id, location_id from balance
      where practice_id = $1 and quantity <> 0 order by 1, 2 offset ${n % 8} limit 1)`;

  test.each(Object.keys(attacks))("shows %s", async (name) => {
    const changed = await tamper(it.owner, (owner) => attacks[name]!(owner, 1));
    expect(changed.rowCount).toBe(1);
    const answer = await verify();
    expect(answer.ok).toBe(false);
    expect(answer.ledger.differences).toBeGreaterThan(0);
    expect((await verifier.verify(it.there)).ok).toBe(true);
  });

  test("shows each of 60 random changes", async () => {
    const random = seeded(chooseSeed());
    for (let round = 0; round < 60; round++) {
      const [name, n] = [random.pick(Object.keys(attacks)), random.int(8)];
      await tamper(it.owner, (owner) => attacks[name]!(owner, n));
      const told = { seed: random.seed, round, name, n };
      expect([told, (await verify()).ok]).toEqual([told, false]);
      await restore();
    }
  }, 60_000);
});

describe("a signed record", () => {
  const ofRecord = {
    record: "id = $1",
    record_event: "record_id = $1",
    step_material: "record_id = $1",
  } as const;
  const other: Record<string, string> = {
    uuid: "gen_random_uuid()",
    text: "'something else'",
    integer: "77",
    jsonb: `'{"verdict": "other"}'`,
    bytea: "sha256('other')",
    "timestamp with time zone": "'2001-01-01'",
  };
  /** Columns that a check of the table itself guards, and what a change of them is refused with. */
  const guarded: Record<string, string> = {
    "record.visit": "record_visit_known",
    "record.state": "record_state_known",
    "record.version": "record_amendment_whole",
    "record.supersedes_id": "record_amendment_whole",
    "record.mode": "record_mode_known",
    "record.seal_id": "record_seal_of_bonding",
    "record.amends": "record_amend",
    "record.amend_reason": "record_amendment_whole",
    "record.told_at": "record_told_after",
    "record.canonical": "record_hash_true",
    "record.hash": "record_hash_true",
    "record_event.kind": "record_event_kind_known",
    "record_event.recorded_at": "record_event_not_before_told",
    "step_material.not_scanned_reason": "step_material_scanned_or_reason",
  };

  test("shows a change of any column of any of its rows", async () => {
    const { rows } = await it.owner.query<{
      table: keyof typeof ofRecord;
      name: string;
      type: string;
    }>(
      `select attrelid::regclass::text as table, attname as name,
              format_type(atttypid, atttypmod) as type from pg_attribute
       where attrelid = any($1::regclass[]) and attnum > 0 and not attisdropped`,
      [Object.keys(ofRecord)],
    );
    expect(rows.length).toBeGreaterThan(35);
    for (const { table, name, type } of rows) {
      const plain = table.replaceAll('"', "") as keyof typeof ofRecord;
      await it.owner.query("begin");
      await it.owner.query("set local session_replication_role = 'replica'");
      const change = it.owner.query(
        `update ${plain} set ${name} = ${other[type]!} where ${ofRecord[plain]}`,
        [it.here.signed],
      );
      const column = `${plain}.${name}`;
      if (guarded[column]) {
        await expect(change).rejects.toThrow(guarded[column]);
        await it.owner.query("rollback");
        continue;
      }
      expect([column, (await change).rowCount]).toEqual([column, 1]);
      await it.owner.query("commit");
      expect([column, (await verify()).ok]).toEqual([column, false]);
      await restore();
    }
    expect((await verify()).ok).toBe(true);
  }, 60_000);

  const attacks: Record<string, string> = {
    "another text, hashed rightly":
      "update record set canonical = '{}', hash = sha256('{}') where id = $1",
    "a text that is no JSON, hashed rightly":
      "update record set canonical = 'x', hash = sha256('x') where id = $1",
    "a signature taken back": `update record set state = 'draft', signed_by = null,
      signed_at = null, canonical = null, hash = null where id = $1`,
    "the mark of a successor that is not there":
      "update record set state = 'superseded' where id = $1",
    "that it is gone": "delete from record where id = $1",
    "an event that is gone": "delete from record_event where record_id = $1",
    "a material that is gone": "delete from step_material where record_id = $1",
    "an event that was added": `insert into record_event
      select practice_id, record_id, sequence + 1, kind, step_key, facts, occurred_at, recorded_at,
        person_id from record_event where record_id = $1`,
    "a material that was added": `insert into step_material
      select practice_id, gen_random_uuid(), record_id, 'etch', product_id, lot_id, container_id,
        not_scanned_reason, patient_id, tooth, used_at, person_id
      from step_material where record_id = $1`,
  };
  test.each(Object.keys(attacks))("shows %s", async (name) => {
    const changed = await tamper(it.owner, (owner) =>
      owner.query(attacks[name]!, [it.here.signed]),
    );
    expect(changed.rowCount).toBe(1);
    const answer = await verify();
    expect(answer.records.faults).toBeGreaterThan(0);
    expect(answer.ok).toBe(false);
  });

  test("that was made up, with a hash of its own, is missing in the audit chain", async () => {
    await tamper(it.owner, async (owner) => {
      await owner.query(
        `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit,
           state,
           version, supersedes_id, amends, amend_reason, verdict, started_by, started_at,
           signed_by, signed_at, canonical, hash)
         select practice_id, $2, tray_id, patient_id, tooth, technique_id, visit, 'superseded', 70,
           id, 'addition', 'made up', verdict, started_by, started_at, signed_by, signed_at,
           canonical, hash
         from record where id = $1`,
        [it.here.signed, newId()],
      );
    });
    const { records } = await verify();
    expect(records).toEqual({ signed: 2, faults: 1 });
  });

  test("that is changed as a draft is no fault: it is not signed yet", async () => {
    await act(it.app, asDentist(it.here), (client) =>
      client.query(
        `insert into record_event values ($1, $2, 9, 'note', null, '{}', now(), now(), $3)`,
        [it.here.id, it.here.draft, it.here.dentist],
      ),
    );
    expect((await verify()).ok).toBe(true);
  });
});
