/** Two practices of two organisations with a row in every table, made in SQL alone. */
import { createHash } from "node:crypto";
import pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { cloneDatabase, type TestDatabase } from "../helpers/database.ts";
import {
  act,
  addContainer,
  addEvent,
  addLot,
  addMaterial,
  addRecord,
  addTray,
  asDentist,
  move,
  override,
  placeKinds,
  sign,
  type PlaceKind,
  type ScenePractice,
} from "./acts.ts";

export interface Scene {
  database: TestDatabase;
  /** Owns the tables; passes row security, not the triggers. */
  owner: pg.Client;
  /** The application's role, with nobody set yet. */
  app: pg.Client;
  here: ScenePractice;
  there: ScenePractice;
  /** One more connection of the application, closed with the scene. */
  connect(): Promise<pg.Client>;
  close(): Promise<void>;
}

export async function openScene(): Promise<Scene> {
  const database = await cloneDatabase();
  const clients: pg.Client[] = [];
  const open = async (url: string) => {
    const client = new pg.Client({ connectionString: url });
    clients.push(client);
    await client.connect();
    return client;
  };
  const owner = await open(database.ownerUrl);
  const app = await open(database.appUrl);
  const here = await makePractice({ owner, app }, "here");
  const there = await makePractice({ owner, app }, "there");
  return {
    database,
    owner,
    app,
    here,
    there,
    connect: () => open(database.appUrl),
    close: async () => {
      await Promise.all(clients.map((client) => client.end()));
      await database.drop();
    },
  };
}

async function makePractice(
  { owner, app }: { owner: pg.Client; app: pg.Client },
  name: string,
): Promise<ScenePractice> {
  const ids = Array.from({ length: 10 }, () => newId());
  const [id, organisation, dentist, assistant, product, technique, patient, tray] = ids as [
    ...[string, string, string, string],
    ...[string, string, string, string],
  ];
  const places = Object.fromEntries(placeKinds.map((kind) => [kind, newId()])) as Record<
    PlaceKind,
    string
  >;
  const of = { id, organisation, dentist, assistant, product, technique, patient, tray, places };
  await addPeopleAndCatalogue(owner, of, name);
  const none = { lot: "", container: "", draft: "", signed: "" };
  const practice: ScenePractice = { ...of, ...none };
  await act(app, asDentist(practice), async () => {
    practice.lot = await addLot(app, practice, `${name}-1`);
    practice.container = await addContainer(app, practice, { code: "FIRST1" });
    // One is still at the supplier.
    await addContainer(app, practice, { code: "WAITS1" });
    const [from, to] = ["supplier", "store"] as const;
    const received = { from, to, reason: "received" };
    await move(app, practice, { ...received, container: practice.container });
    await addVisit(app, practice);
    await addLabels(app, practice);
    practice.signed = await addRecord(app, practice);
    await addEvent(app, practice, { record: practice.signed, sequence: 1 });
    await addMaterial(app, practice, { record: practice.signed });
    await sign(app, practice, { record: practice.signed });
    await app.query(
      "insert into waiting_change values ($1, $2, '16', 1, false, 'moved-away', '', $3, now())",
      [practice.id, practice.tray, practice.assistant],
    );
    const tray = await addTray(app, practice);
    practice.draft = await addRecord(app, practice, { tray });
    await addEvent(app, practice, { record: practice.draft, sequence: 1 });
    await addMaterial(app, practice, { record: practice.draft });
    await override(app, practice, { person: practice.dentist, subject: "prime" });
  });
  return practice;
}

type Founded = Omit<ScenePractice, "lot" | "container" | "draft" | "signed">;

async function addPeopleAndCatalogue(owner: pg.Client, of: Founded, name: string): Promise<void> {
  const run = (text: string, ...values: unknown[]) => owner.query(text, values);
  const { id, organisation, dentist, assistant } = of;
  await run("insert into organisation (id, name) values ($1, $2)", organisation, name);
  await run(
    `insert into practice (practice_id, organisation_id, name, time_zone, created_at)
     values ($1, $2, $3, 'Europe/Berlin', now())`,
    ...[id, organisation, name],
  );
  for (const [person, role] of [
    [dentist, "dentist"],
    [assistant, "assistant"],
  ]) {
    await run(
      `insert into person (id, organisation_id, display_name, sign_in_name, password_hash,
         created_at)
       values ($1, $2, $3, $4, 'x', now())`,
      ...[person, organisation, role, `${name}-${role}`],
    );
    await run("insert into membership values ($1, $2, $3)", id, person, role);
  }
  for (const [kind, place] of Object.entries(of.places)) {
    await run(
      "insert into location (practice_id, id, name, kind) values ($1, $2, $3, $3)",
      ...[id, place, kind],
    );
  }
  const system = newId();
  await run("insert into bonding_system values ($1, $2, $3)", system, organisation, "a system");
  await run(
    `insert into product (id, organisation_id, name, kind, system_id, created_at)
     values ($1, $2, 'a primer', 'primer', $3, now())`,
    ...[of.product, organisation, system],
  );
  await run(
    `insert into product_identifier (organisation_id, scheme, value, product_id)
     values ($1, 'gs1-gtin', '09506000134352', $2)`,
    ...[organisation, of.product],
  );
  await run(
    `insert into technique (id, organisation_id, key, version, name, visit, steps, created_at)
     values ($1, $2, 'seal', 1, 'Sealing', 'sealing', '[]', now())`,
    ...[of.technique, organisation],
  );
}

async function addTemplate(app: pg.Client, of: ScenePractice): Promise<void> {
  const template = newId();
  await app.query(
    `insert into tray_template
     values ($1, $2, 'a template', $3, $4, null, 'none', false, $5, now())`,
    [of.id, template, of.technique, of.places.operatory, of.assistant],
  );
  await app.query("insert into tray_template_product values ($1, $2, 'prime', $3, 1)", [
    ...[of.id, template, of.product],
  ]);
}

/** What else a practice has: somebody signed in, a delivery, a tray with an item, a withdrawal. */
async function addVisit(app: pg.Client, of: ScenePractice): Promise<void> {
  const run = (text: string, ...values: unknown[]) => app.query(text, [of.id, ...values]);
  const device = newId();
  await run(
    "insert into device values ($1, $2, 'tablet', $3, $4, now())",
    ...[device, createHash("sha256").update(device).digest(), of.dentist],
  );
  await run(
    `insert into session (practice_id, id, person_id, device_id, token_hash, created_at,
       last_seen_at, expires_at) values ($1, $2, $3, $4, $5, now(), now(), now())`,
    ...[newId(), of.dentist, device, createHash("sha256").update(of.id).digest()],
  );
  const delivery = newId();
  await run("insert into delivery values ($1, $2, '', '', $3, now())", delivery, of.assistant);
  await run(
    "insert into delivery_line values ($1, $2, $3, $4, 1, null, 'a label', now())",
    ...[newId(), delivery, of.lot],
  );
  await run("insert into patient values ($1, $2, 'C-1', now())", of.patient);
  await run(
    "insert into tray values ($1, $2, $3, '16', $4, $5, now(), 'setting', $6, now())",
    ...[of.tray, of.patient, of.technique, of.places.operatory, of.assistant],
  );
  await run("insert into tray_tooth values ($1, $2, '16', 1)", of.tray);
  await addTemplate(app, of);
  await run("insert into product_stock_rule values ($1, $2, 10)", of.product);
  await run(
    `insert into storage_excursion (practice_id, id, location_id, from_at, to_at, highest_c,
       opened_by, opened_at)
     values ($1, $2, $3, now() - interval '2 hours', now() - interval '1 hour', 12, $4, now())`,
    ...[newId(), of.places.store, of.assistant],
  );
  const light = newId();
  await run(
    "insert into curing_light values ($1, $2, 'a light', '', 80, null, false, now())",
    light,
  );
  await run("insert into curing_light_mode values ($1, $2, 1, 'Standard')", light);
  await run(
    `insert into light_reading values ($1, $2, $3, 'Standard', 0, 1200, '', '', now(), null, $4,
       now())`,
    ...[newId(), light, of.assistant],
  );
  await run("insert into tray_verdict values ($1, $2, 'clear', '{}', now())", of.tray);
  await run("insert into finding_seen values ($1, $2, 'short-dated', 'caution', now())", of.tray);
  await run(
    "insert into verdict_change values ($1, $2, $3, 'day-begun', 'clear', 'caution', '{}', now())",
    ...[newId(), of.tray],
  );
  await run(
    `insert into tray_item values ($1, $2, $3, $4, $5, null, 'FIRST1', '{}', $6, now())`,
    ...[newId(), of.tray, of.container, of.product, of.assistant],
  );
  const withdrawal = newId();
  await run(
    `insert into withdrawal (practice_id, id, reference, state, received_by, received_at)
     values ($1, $2, 'N-1', 'received', $3, now())`,
    ...[withdrawal, of.dentist],
  );
  await run("insert into withdrawal_scope values ($1, $2, $3, '')", withdrawal, of.product);
  await app.query("select begin_command($1, $2, $3, null, $4, 'test', '\\x00', now())", [
    ...[of.id, of.organisation, of.dentist, `key-${of.id.slice(0, 8)}`],
  ]);
}

/** A run of one label, a sheet and a printer of its own, and what was sent to it. */
async function addLabels(app: pg.Client, of: ScenePractice): Promise<void> {
  const run = (text: string, ...values: unknown[]) => app.query(text, [of.id, ...values]);
  const [labels, print] = [newId(), newId()];
  await run("insert into label_run values ($1, $2, 1, null, $3, now())", labels, of.assistant);
  await run("insert into label_run_subject values ($1, $2, 1, $3)", labels, of.container);
  await run(
    `insert into label_sheet values ($1, $2, 'a sheet', 210000, 297000, 3, 8, 70000, 37000, 0, 500,
       70000, 37000)`,
    newId(),
  );
  await run(
    "insert into label_printer values ($1, $2, 'a printer', '192.0.2.1', 9100, 203, 45000, 20000)",
    newId(),
  );
  await run(
    "insert into label_print values ($1, $2, 'a printer', '192.0.2.1', 9100, $3, 1, 1, $4, now())",
    ...[print, labels, of.assistant],
  );
  await run("insert into label_print_outcome values ($1, $2, 'sent', '', now())", print);
}
