/**
 * A submission takes effect once, however often it is sent. Every write of `routes.ts` is sent a
 * second time with its key, as after a lost answer: it gets the first answer, and no row is added.
 * Source: IETF draft-ietf-httpapi-idempotency-key-header (from memory).
 */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import pg from "pg";
import { operations } from "#contracts/operations";
import { routes, type RouteName } from "#contracts/routes";
import type { Role } from "#domain";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, roleNames, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { RawClient, requestOf, type AnyGiven, type RawRequest } from "../helpers/raw.ts";
import { prepare, prepareMore } from "./every-operation.ts";

let it: TestApp;
let make: Maker;
let client: RawClient;
let behind: pg.Client;
/** Written by the server itself, some time after the answer. */
const keptAfterwards = ["tray_verdict", "verdict_change", "finding_seen"];
let tables: string[];
const cookies = new Map<Role, string>();
beforeAll(async () => {
  it = await openApp();
  client = await RawClient.of(it);
  make = await Maker.of(it.practice);
  for (const role of roleNames) cookies.set(role, await client.signIn(role));
  behind = new pg.Client({ connectionString: it.database.ownerUrl });
  await behind.connect();
  const { rows } = await behind.query<{ name: string }>(
    `select table_name as name from information_schema.tables
     where table_schema = 'public' and table_type = 'BASE TABLE' order by table_name`,
  );
  tables = rows.map(({ name }) => name).filter((name) => !keptAfterwards.includes(name));
});
afterAll(async () => {
  await behind.end();
  client.close();
  await it.close();
});

/** How many rows each table has, and a digest of those that may change in place. */
async function lookBehind(): Promise<Record<string, unknown>> {
  const counts = tables.map((name) => `(select count(*)::int from ${name}) as ${name}`);
  const { rows } = await behind.query<Record<string, unknown>>(
    `select ${counts.join(", ")},
       (select md5(string_agg(b::text, ',' order by b::text)) from balance b) as balances,
       (select md5(string_agg(c::text, ',' order by c::text)) from container c) as containers,
       (select md5(string_agg(t::text, ',' order by t::text)) from tray t) as trays,
       (select md5(string_agg(r::text, ',' order by r::text)) from record r) as records,
       (select md5(string_agg(w::text, ',' order by w::text)) from withdrawal w) as withdrawals,
       (select md5(string_agg(p::text, ',' order by p::text)) from product p) as products,
       (select md5(string_agg(p::text, ',' order by p::text)) from person p) as people`,
  );
  return rows[0]!;
}

function cookieFor(name: RouteName): string {
  const { roles }: { roles: unknown } = routes[name];
  return cookies.get(Array.isArray(roles) ? (roles as Role[])[0]! : "office")!;
}
const withKey = (request: RawRequest, key: string): RawRequest => ({
  ...request,
  headers: { ...request.headers, "idempotency-key": key },
});

/** Writes without a key: nobody is known yet. They are shown to be harmless in their own tests. */
const keyless: RouteName[] = ["setUp", "signIn", "switchPerson"];
/** Asked by POST, since a label does not fit into an address; writes nothing. */
const reads: RouteName[] = ["readScan", "readAppointments"];
/** Of a registered tablet alone, which none of these people sits at; shown in its own test. */
const ofTablets: RouteName[] = ["saveScannerProfile"];
const left = [...keyless, ...reads, ...ofTablets];
const writes = (Object.keys(routes) as RouteName[]).filter(
  (name) => routes[name].method !== "GET" && !left.includes(name),
);
const every: { name: RouteName; what: string; fresh: () => Promise<AnyGiven> }[] = [
  ...writes.map((name) => ({
    name,
    what: "",
    fresh: () => prepare(name, make),
  })),
  ...prepareMore
    .filter(([name]) => writes.includes(name))
    .map(([name, what, more]) => ({
      name,
      what: `, ${what},`,
      fresh: () => more(make),
    })),
];
/** Signing out twice: the second time nobody is signed in any more. */
const lasting = every.filter(({ name }) => name !== "signOut");
/** Their content is a secret, of which no trace is kept to compare another one with. */
const secret: RouteName[] = ["setPin"];

describe("a write sent again with its key", () => {
  test.each(lasting)(
    "$name$what gives the first answer and one effect",
    async ({ name, fresh }) => {
      const request = requestOf(name, await fresh(), cookieFor(name));
      const before = await lookBehind();
      const first = await client.send(request);
      expect([first.status, first.text]).toEqual([operations[name].status, first.text]);
      const after = await lookBehind();
      // One entry of the audit trail at least, and one kept answer.
      expect(Number(after["audit_entry"])).toBeGreaterThan(Number(before["audit_entry"]));
      expect(after["idempotency_key"]).toBe(Number(before["idempotency_key"]) + 1);
      const again = await client.send(request);
      expect([again.status, again.text]).toEqual([first.status, first.text]);
      expect(await lookBehind()).toEqual(after);
    },
  );

  test.each(lasting.filter(({ name }) => !secret.includes(name)))(
    "$name$what with another content is refused and has no effect",
    async ({ name, fresh }) => {
      const key = newId();
      await client.send(withKey(requestOf(name, await fresh(), cookieFor(name)), key));
      const other = withKey(requestOf(name, await fresh(), cookieFor(name)), key);
      const after = await lookBehind();
      const refused = await client.send(other);
      expect(refused.status).toBe(422);
      expect(JSON.parse(refused.text).type).toBe("/problems/idempotency-key-reused");
      expect(await lookBehind()).toEqual(after);
    },
  );

  test("of another operation is refused", async () => {
    const key = newId();
    const cookie = cookies.get("office")!;
    const body = { name: make.name("Same name") };
    expect((await client.send(withKey(requestOf("addSystem", { body }, cookie), key))).status).toBe(
      201,
    );
    const refused = await client.send(withKey(requestOf("registerDevice", { body }, cookie), key));
    expect(JSON.parse(refused.text).type).toBe("/problems/idempotency-key-reused");
  });

  test("signOut ends one session, once", async () => {
    const cookie = await client.signIn("office");
    const request = requestOf("signOut", {}, cookie);
    expect((await client.send(request)).status).toBe(200);
    const after = await lookBehind();
    expect((await client.send(request)).status).toBe(401);
    expect(await lookBehind()).toEqual(after);
  });

  test("by another person is a new operation", async () => {
    const key = newId();
    const body = { supplier: make.name("Supplier") };
    const ids = new Set<string>();
    for (const role of roleNames) {
      const request = withKey(requestOf("openDelivery", { body }, cookies.get(role)!), key);
      const answer = await client.send(request);
      expect(answer.status).toBe(201);
      ids.add(JSON.parse(answer.text).id);
    }
    expect(ids.size).toBe(roleNames.length);
  });

  test("after a problem is tried anew, since nothing was done", async () => {
    const name = make.name("Room");
    const key = newId();
    const { office } = it.practice;
    const given = { body: { name, kind: "operatory" as const } };
    const { id } = (await office.call("addLocation", given)).ok;
    expect((await office.call("addLocation", { ...given, key })).problem).toBe("name-taken");
    await behind.query("update location set name = $2 where id = $1", [id, make.name("Renamed")]);
    expect((await office.call("addLocation", { ...given, key })).status).toBe(201);
  });

  test("in another session of the same person still gives the first answer", async () => {
    const given = await prepare("openDelivery", make);
    const request = requestOf("openDelivery", given, cookies.get("assistant")!);
    const first = await client.send(request);
    const cookie = await client.signIn("assistant");
    const again = await client.send({ ...request, headers: { ...request.headers, cookie } });
    expect(again.text).toBe(first.text);
  });
});

test("a registered tablet's cookie is given again with the first answer", async () => {
  const request = requestOf("registerDevice", { body: { name: "T" } }, cookies.get("office")!);
  const first = await client.send(request);
  const again = await client.send(request);
  expect(again.text).toBe(first.text);
  expect(String(first.headers["set-cookie"])).toContain("tubule_device=");
  expect(again.headers["set-cookie"]).toEqual(first.headers["set-cookie"]);
});

test.each(["receive", "planTray", "scanIntoTray", "move", "openDelivery"] as const)(
  "32 at once of one and the same %s are one effect and 32 equal answers",
  async (name) => {
    const request = requestOf(name, await prepare(name, make), cookieFor(name));
    const before = await lookBehind();
    const answers = await Promise.all(Array.from({ length: 32 }, () => client.send(request)));
    expect(answers.map(({ status }) => status)).toEqual(Array(32).fill(201));
    expect(new Set(answers.map(({ text }) => text)).size).toBe(1);
    const after = await lookBehind();
    expect(Number(after["audit_entry"])).toBe(Number(before["audit_entry"]) + 1);
    expect(after["idempotency_key"]).toBe(Number(before["idempotency_key"]) + 1);
  },
);

test("connections cut before the answer: each delivery line is there once after a resend", async () => {
  const count = 40;
  const requests: RawRequest[] = [];
  for (let n = 0; n < count; n += 1) {
    const given = await prepare("receive", make);
    requests.push(requestOf("receive", given, cookies.get("assistant")!));
  }
  const lines = async () => Number((await lookBehind())["delivery_line"]);
  const before = await lines();
  const cut = await Promise.allSettled(requests.map((request) => client.send(request, true)));
  expect(cut.filter(({ status }) => status === "rejected").length).toBeGreaterThan(count / 2);
  const answers = await Promise.all(requests.map((request) => client.send(request)));
  expect(answers.map(({ status }) => status)).toEqual(Array(count).fill(201));
  expect(new Set(answers.map(({ text }) => JSON.parse(text).id)).size).toBe(count);
  expect(await lines()).toBe(before + count);
  const { ok } = await it.practice.office.call("verifyAudit");
  expect(ok).toMatchObject({ ok: true, fault: null });
});
