/**
 * Who may do what, and to whose things: every operation of the OpenAPI document, by everybody and
 * by nobody, with the ids of one's own practice, of another practice, and of nothing at all. What
 * belongs to another practice answers byte for byte like what does not exist (OWASP ASVS 5.0 8.2.1,
 * 8.2.2; OWASP API Security Top 10 2023, API1 and API5).
 */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import pg from "pg";
import { operations } from "#contracts/operations";
import { apiPrefix, type RouteName } from "#contracts/routes";
import { makeContainerCode, makeOwnCode, type Role } from "#domain";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, password, roleNames, type TestApp } from "../helpers/app.ts";
import { gs1Label, Maker, newGtin } from "../helpers/make.ts";
import {
  faultOfProblem,
  RawClient,
  requestOf,
  type AnyGiven,
  type RawAnswer,
} from "../helpers/raw.ts";
import { table, type Line } from "./authorisation-table.ts";
import { prepare } from "./every-operation.ts";

/** Begins everything that the other practice has made. */
const marker = "zebra-";
let it: TestApp;
let client: RawClient;
let behind: pg.Client;
let own: Maker;
let other: Maker;
const cookies = new Map<Role | "nobody", string>([["nobody", ""]]);

beforeAll(async () => {
  it = await openApp();
  client = await RawClient.of(it);
  behind = new pg.Client({ connectionString: it.database.ownerUrl });
  await behind.connect();
  own = await Maker.of(it.practice);
  other = await Maker.of(await it.addPractice("zebra"), marker);
  for (const role of roleNames) cookies.set(role, await client.signIn(role));
});
afterAll(async () => {
  await behind.end();
  client.close();
  await it.close();
});

/** What every write leaves behind. */
async function countEntries(): Promise<number> {
  const { rows } = await behind.query<{ n: number }>("select count(*)::int as n from audit_entry");
  return rows[0]!.n;
}

const ids = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;
function idPaths(value: unknown, path: string[] = []): string[] {
  if (typeof value === "string") return ids.test(value) ? [path.join(".")] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => idPaths(each, [...path, key]));
}

const at = (value: unknown, path: string): unknown =>
  path.split(".").reduce((each, key) => (each as Record<string, unknown>)[key], value);

function withId(given: AnyGiven, path: string, id: string): AnyGiven {
  const copy = structuredClone(given);
  const keys = path.split(".");
  const last = keys.pop()!;
  (at(copy, keys.join(".")) as Record<string, unknown>)[last] = id;
  return copy;
}

/** An answer without what differs between any two: the request's number, and what was asked for. */
function bare({ status, text }: RawAnswer, asked: string): string {
  const plain = text
    .replaceAll(/urn:tubule:request:[0-9a-f-]{36}/g, "urn")
    .replaceAll(asked, "asked");
  return `${status} ${plain}`;
}

function expectForm(what: string, answer: RawAnswer): void {
  const fault = answer.status < 400 ? undefined : faultOfProblem(answer);
  expect([what, fault]).toEqual([what, undefined]);
  expect([what, answer.text.includes(marker)]).toEqual([what, false]);
  expect([what, answer.text.includes(other.practice.actor.practiceId)]).toEqual([what, false]);
}

const may = ({ who }: Line, role: Role | "nobody"): boolean =>
  who === "anyone" || (role !== "nobody" && (who === "member" || who.includes(role)));

test("the table has a line for every operation that the OpenAPI document lists, and no other", async () => {
  const answer = await client.send({
    method: "GET",
    path: `${apiPrefix}/openapi.json`,
    headers: {},
  });
  const { paths } = JSON.parse(answer.text) as {
    paths: Record<string, Record<string, { operationId: string }>>;
  };
  const served = Object.values(paths).flatMap((each) =>
    Object.values(each).map(({ operationId }) => operationId),
  );
  expect(served.sort()).toEqual(Object.keys(table).sort());
});

test.each(Object.keys(table) as RouteName[])("%s is for whom the table says", async (name) => {
  const line = table[name];
  const given = await prepare(name, own);
  const foreign = await prepare(name, other);
  const send = async (role: Role | "nobody", what: AnyGiven) => {
    const answer = await client.send(requestOf(name, what, cookies.get(role)!));
    expectForm(`${name} by ${role}`, answer);
    return answer;
  };
  expect(idPaths(given).sort()).toEqual(Object.keys(line.ids).sort());

  const entries = await countEntries();
  for (const role of ["nobody", ...roleNames] as const) {
    if (!may(line, role)) {
      const status = role === "nobody" ? 401 : 403;
      expect([role, (await send(role, given)).status]).toEqual([role, status]);
      expect([role, (await send(role, foreign)).status]).toEqual([role, status]);
      continue;
    }
    for (const [path, status] of Object.entries(line.ids)) {
      const nothing = newId();
      const theirs = String(at(foreign, path));
      const ofNothing = await send(role, withId(given, path, nothing));
      const ofTheirs = await send(role, withId(given, path, theirs));
      expect([role, path, ofNothing.status]).toEqual([role, path, status]);
      expect(bare(ofTheirs, theirs)).toBe(bare(ofNothing, nothing));
    }
  }
  // What was refused left no trace; filters with unknown ids only read.
  expect(await countEntries()).toBe(entries);

  const able = (["nobody", ...roleNames] as const).filter((role) => may(line, role));
  for (const [index, role] of able.entries()) {
    const fresh = index === 0 ? given : await prepare(name, own);
    const answer = await send(role, fresh);
    const expected = line.answers ?? operations[name].status;
    expect([role, answer.status, answer.text]).toEqual([role, expected, answer.text]);
    if (name === "signOut") cookies.set(role, await client.signIn(role));
  }
});

/** What is named by a text instead of an id; `unknown` is a text of the same form. */
interface ByText {
  name: RouteName;
  status: number;
  /** What the other practice has, by its text. */
  theirs: () => Promise<string>;
  unknown: string;
  asking: (text: string) => Promise<AnyGiven>;
}

const theirLot = async () => (await other.received(await other.usualProduct("etchant"))).lot;
const theirGtin = async () => (await other.usualProduct("etchant")).gtin;
const theirChart = async () => (await other.tray()).chartNumber;
/** A code that this practice has not given out: the other one has received many more. */
let code: string | undefined;
async function theirCode(): Promise<string> {
  if (code !== undefined) return code;
  const product = await other.usualProduct("etchant");
  const { containers } = await other.received(product, { quantity: 500 });
  return (code = containers.at(-1)!.code);
}
/** Codes that this practice has not given to a place or a tray either: theirs count on. */
async function theirLabel(kind: "location" | "tray"): Promise<string> {
  await theirCode();
  const id = kind === "tray" ? (await other.tray()).id : other.places.refrigerator;
  const body = { subjects: [{ kind, id }] };
  return (await other.practice.office.call("makeLabels", { body })).ok.labels[0]!.code;
}
const unknownCode = makeContainerCode(5_000_000);
const unknownGtin = newGtin();

const byText: ByText[] = [
  {
    name: "scanIntoTray",
    status: 422,
    theirs: theirCode,
    unknown: unknownCode,
    asking: async (text) => ({
      params: { trayId: (await own.tray()).id },
      body: { barcodes: [text] },
    }),
  },
  {
    name: "swapContainer",
    status: 422,
    theirs: theirCode,
    unknown: unknownCode,
    asking: async (text) => {
      const { params } = await prepare("getRecord", own);
      return { params: { ...params! }, body: { stepKey: "cement", barcodes: [text] } };
    },
  },
  {
    name: "traceStock",
    status: 404,
    theirs: theirCode,
    unknown: unknownCode,
    asking: async (container) => ({ query: { container } }),
  },
  {
    name: "readScan",
    status: 200,
    theirs: theirCode,
    unknown: unknownCode,
    asking: async (text) => ({ body: { barcodes: [text] } }),
  },
  ...(["location", "tray"] as const).map((kind): ByText => ({
    name: "readScan",
    status: 200,
    theirs: () => theirLabel(kind),
    unknown: makeOwnCode(kind, 5_000_000),
    asking: async (text) => ({ body: { barcodes: [text] } }),
  })),
  {
    name: "traceStock",
    status: 200,
    theirs: theirLot,
    unknown: "no-such-lot",
    asking: async (lot) => ({ query: { lot } }),
  },
  {
    name: "listContainers",
    status: 200,
    theirs: theirLot,
    unknown: "no-such-lot",
    asking: async (lot) => ({ query: { lot } }),
  },
  {
    name: "listRecords",
    status: 200,
    theirs: theirChart,
    unknown: "no-such-chart",
    asking: async (chart) => ({ query: { chart } }),
  },
  {
    name: "tracePatient",
    status: 404,
    theirs: theirChart,
    unknown: "no-such-chart",
    asking: async (chart) => ({ query: { chart } }),
  },
  {
    name: "traceStock",
    status: 404,
    theirs: theirGtin,
    unknown: unknownGtin,
    asking: async (identifier) => ({ query: { identifier } }),
  },
  {
    name: "receive",
    status: 404,
    theirs: theirGtin,
    unknown: unknownGtin,
    asking: async (gtin) => ({
      params: { deliveryId: own.deliveryId },
      body: {
        barcodes: [gs1Label({ gtin, lot: "L1", useBy: "2028-03-31" })],
        locationId: own.places.store,
      },
    }),
  },
  {
    name: "readScan",
    status: 200,
    theirs: theirGtin,
    unknown: unknownGtin,
    asking: async (gtin) => ({ body: { barcodes: [`]E0${gtin.slice(1)}`] } }),
  },
];

test.each(byText)(
  "$name with a text that only another practice has answers $status, as for one nobody has",
  async ({ name, status, theirs, unknown, asking }) => {
    const text = await theirs();
    const cookie = cookies.get("assistant")!;
    const ofTheirs = await client.send(requestOf(name, await asking(text), cookie));
    const ofNothing = await client.send(requestOf(name, await asking(unknown), cookie));
    expect(ofNothing.status).toBe(status);
    const plain = (answer: RawAnswer, asked: string) =>
      bare(answer, asked).replaceAll(asked.slice(1), "asked");
    expect(plain(ofTheirs, text)).toBe(plain(ofNothing, unknown));
  },
);

test("an id of another practice serves nobody's PIN on one's own tablet", async () => {
  const { office, dentist } = it.practice;
  await office.call("registerDevice", { body: { name: "Tablet" } });
  const their = other.practice.dentist;
  await their.call("setPin", { body: { password, pin: "1357" } });
  const asked = { body: { personId: their.id, pin: "1357" } };
  expect((await office.call("switchPerson", asked)).problem).toBe("wrong-credentials");
  await dentist.call("setPin", { body: { password, pin: "2468" } });
  const { ok } = await office.call("listDevicePeople");
  const offered = ok.people.map(({ id }) => id);
  expect(offered).toContain(dentist.id);
  expect(offered).not.toContain(their.id);
});

test("somebody who was made inactive, or whose role was taken, is out at once", async () => {
  const { assistant } = it.practice;
  const { id } = assistant;
  await behind.query("update person set active = false where id = $1", [id]);
  expect((await assistant.call("getSession")).problem).toBe("not-signed-in");
  expect((await it.nobody.signIn("assistant")).problem).toBe("wrong-credentials");
  await behind.query("update person set active = true where id = $1", [id]);
  await behind.query("update membership set role = 'office' where person_id = $1", [id]);
  const tray = await own.tray();
  const scan = { params: { trayId: tray.id }, body: { barcodes: ["C"] } };
  expect((await assistant.call("scanIntoTray", scan)).problem).toBe("not-allowed");
  await behind.query("update membership set role = 'assistant' where person_id = $1", [id]);
});
