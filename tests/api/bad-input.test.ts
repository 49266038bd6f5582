/** Whatever arrives, the answer is a problem of the closed list, never a failure of the server. */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import fc from "fast-check";
import type { z } from "zod";
import { operations } from "#contracts/operations";
import { apiPrefix, routes, type RouteName } from "#contracts/routes";
import type { Role } from "#domain";
import { openApp, type TestApp } from "../helpers/app.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { Maker } from "../helpers/make.ts";
import {
  faultOfProblem,
  RawClient,
  requestOf,
  type AnyGiven,
  type RawAnswer,
} from "../helpers/raw.ts";
import { prepare, prepareMore } from "./every-operation.ts";

let it: TestApp;
let make: Maker;
let client: RawClient;
const cookies = new Map<string, string>();
beforeAll(async () => {
  it = await openApp();
  client = await RawClient.of(it);
  make = await Maker.of(it.practice);
  for (const role of ["assistant", "dentist", "office", "owner"]) {
    cookies.set(role, await client.signIn(role));
  }
});
afterAll(async () => {
  client.close();
  await it.close();
});

const names = Object.keys(routes) as RouteName[];
const withBody = names.filter((name) => "body" in operations[name]);
const withQuery = names.filter((name) => "query" in operations[name]);
const withPath = names.filter((name) => routes[name].path.includes(":"));

function cookieFor(name: RouteName): string {
  const { roles }: { roles: unknown } = routes[name];
  return cookies.get(Array.isArray(roles) ? (roles as Role[])[0]! : "office")!;
}

/** What is wrong with an answer to a request that the contract refuses, or merely may refuse. */
function faultOf(answer: RawAnswer, mayPass = false): string | undefined {
  if (answer.status < 300 && mayPass) return undefined;
  if (answer.status < 400 || answer.status >= 500) return `${answer.status} ${answer.text}`;
  return faultOfProblem(answer);
}

type Leaf = { path: (string | number)[]; value: unknown };
function leavesOf(value: unknown, path: (string | number)[] = []): Leaf[] {
  if (Array.isArray(value)) return value.flatMap((each, index) => leavesOf(each, [...path, index]));
  if (typeof value !== "object" || value === null) return [{ path, value }];
  return Object.entries(value).flatMap(([key, each]) => leavesOf(each, [...path, key]));
}

function withLeaf(value: unknown, [key, ...rest]: readonly (string | number)[], leaf: unknown) {
  if (key === undefined) return leaf;
  const copy = Array.isArray(value) ? [...value] : { ...(value as object) };
  const child = (copy as Record<string | number, unknown>)[key];
  (copy as Record<string | number, unknown>)[key] = withLeaf(child, rest, leaf);
  return copy;
}

const hostileTexts = [
  "a\u0000b",
  "\ud800",
  "\u{1f9b7}\u202egnp\u2066",
  "\u{1f9b7}\u{1f9b7}\u{1f9b7}",
  "' or 1=1; -- %00%zz",
  "\u00a0\u00a0\u00a0\u00a0\u00a0x",
  "a".repeat(150),
  "a".repeat(10_000),
];
const hostileDates = ["0000-01-01", "0001-01-01", "9999-12-31", "2026-02-30", "2026-02-29"];
const hostileInstants = [
  "0000-06-01T00:00:00Z",
  "0001-01-01T00:00:00Z",
  "9999-12-31T23:59:59.999Z",
  "2026-06-15T07:00:00.123456789012345Z",
  "2026-06-15T24:00:00Z",
];
const hostileIds = [
  "00000000-0000-0000-0000-000000000000",
  "ffffffff-ffff-ffff-ffff-ffffffffffff",
  "x".repeat(36),
  "a".repeat(5_000),
  "' or 1=1; --",
];
const hostileNumbers = [0, -1, 0.001, 99.96, 999.999, 2 ** 31, 1e300];

function hostileFor(value: unknown): readonly unknown[] {
  if (typeof value === "number") return hostileNumbers;
  if (typeof value === "boolean") return ["true", 1, null];
  if (typeof value !== "string") return [{}, [], 0];
  if (/^[0-9a-f]{8}-[0-9a-f-]{27}$/.test(value)) return [...hostileIds, value.toUpperCase()];
  if (/^\d{4}-\d\d-\d\dT/.test(value)) return hostileInstants;
  if (/^\d{4}-\d\d-\d\d$/.test(value)) return hostileDates;
  return hostileTexts;
}

const otherTypes = [null, 42, {}, [[]]];

/** How many hostile requests were sent: a walk that goes nowhere must not pass. */
let sent = 0;

async function walkLeaves(
  name: RouteName,
  part: "body" | "query" | "params",
  fresh: () => Promise<AnyGiven>,
): Promise<string[]> {
  const faults: string[] = [];
  let given = await fresh();
  const whole = given[part];
  const schema: z.ZodType | undefined =
    part === "params" ? undefined : (operations[name] as { body?: z.ZodType })[part as "body"];
  for (const { path, value } of leavesOf(whole)) {
    const wrongTypes = part === "body" ? otherTypes : [];
    for (const hostile of [...hostileFor(value), ...wrongTypes]) {
      const mutated = withLeaf(given[part], path, hostile);
      const mayPass = schema === undefined || schema.safeParse(mutated).success;
      const request = requestOf(name, { ...given, [part]: mutated }, cookieFor(name));
      const answer = await client.send(request);
      sent += 1;
      const fault = faultOf(answer, mayPass);
      const what = JSON.stringify(hostile)?.slice(0, 60);
      if (fault) faults.push(`${name} ${part}/${path.join("/")} = ${what}: ${fault}`);
      if (answer.status < 300) given = await fresh();
    }
  }
  return faults;
}

type Walk = () => Promise<string[]>;

/** Several walks at a time, so that neither server nor database waits for the other. */
async function walkAll(walks: Walk[]): Promise<string[]> {
  const faults: string[] = [];
  const queue = [...walks];
  const walkOn = async () => {
    for (let walk = queue.shift(); walk; walk = queue.shift()) faults.push(...(await walk()));
  };
  await Promise.all([walkOn(), walkOn(), walkOn(), walkOn()]);
  return faults;
}
const walkOf =
  (part: "body" | "query" | "params") =>
  (name: RouteName): Walk => {
    return () => walkLeaves(name, part, () => prepare(name, make));
  };

test("no hostile value in any place of any body makes the server fail", async () => {
  const more = prepareMore.filter(([name]) => withBody.includes(name));
  const faults = await walkAll([
    ...withBody.map(walkOf("body")),
    ...more.map(
      ([name, , given]): Walk =>
        () =>
          walkLeaves(name, "body", () => given(make)),
    ),
  ]);
  expect(faults).toEqual([]);
  expect(sent).toBeGreaterThan(1_000);
}, 60_000);

test("no hostile value in any query or path makes the server fail", async () => {
  const walks = [...withQuery.map(walkOf("query")), ...withPath.map(walkOf("params"))];
  expect(await walkAll(walks)).toEqual([]);
}, 60_000);

test("no scan makes the server fail, be it any characters at all or a label that was spoilt", async () => {
  const { id: trayId } = await make.tray({ technique: "bond-restoration" });
  const labels = [
    (await make.received(await make.usualProduct("bonding-cement"))).label,
    "+A999HC10M",
    "https://id.example.org/01/09520000001070/10/DF-118O?17=280331",
  ];
  const unit = fc.integer({ min: 0, max: 0xffff }).map((each) => String.fromCharCode(each));
  const anything = fc.array(unit, { minLength: 1, maxLength: 60 }).map((all) => all.join(""));
  const spoilt = fc
    .tuple(fc.constantFrom(...labels), fc.nat(60), anything)
    .map(([label, at, noise]) => label.slice(0, at) + noise.slice(0, 2) + label.slice(at + 1));
  const barcodes = fc.array(fc.oneof(anything, spoilt), { minLength: 1, maxLength: 2 });
  await fc.assert(
    fc.asyncProperty(barcodes, async (scans) => {
      const body = { barcodes: scans };
      const read = requestOf("readScan", { body }, cookies.get("office")!);
      expect(faultOf(await client.send(read), true)).toBeUndefined();
      const scan = requestOf("scanIntoTray", { params: { trayId }, body }, cookies.get("dentist")!);
      expect(faultOf(await client.send(scan), true)).toBeUndefined();
    }),
    { numRuns: 150 },
  );
}, 60_000);

const badBodies: Record<string, string | Buffer> = {
  nothing: "",
  "half an object": '{"a":',
  "no JSON": "nul",
  null: "null",
  "a list": "[]",
  "a text": '"text"',
  "a number": "42",
  "an unknown member": '{"unexpected":1}',
  "a prototype": '{"__proto__":{"admin":true}}',
  "a constructor": '{"constructor":{"prototype":{"admin":true}}}',
  "a deep list": "[".repeat(200_000) + "]".repeat(200_000),
  "a deep object": `{"a":${'{"a":'.repeat(100_000)}1${"}".repeat(100_001)}`,
  "half a character": Buffer.from([0x7b, 0x22, 0xff, 0xfe, 0x22, 0x3a, 0x31, 0x7d]),
  "a raw NUL": '{"a":"\u0000"}',
  "two megabytes": JSON.stringify({ a: "a".repeat(2_000_000) }),
};

const large = new Set(["a deep list", "a deep object", "two megabytes"]);

test.each(Object.keys(badBodies))("a body of %s is refused everywhere", async (kind) => {
  const faults: string[] = [];
  // What takes long to read is read by one and the same parser wherever it is sent.
  for (const name of large.has(kind) ? withBody.slice(0, 5) : withBody) {
    const params = Object.fromEntries(
      [...routes[name].path.matchAll(/:(\w+)/g)].map(([, parameter]) => [parameter!, newId()]),
    );
    const request = requestOf(name, { params, body: {} }, cookieFor(name));
    const answer = await client.send({ ...request, payload: badBodies[kind]! });
    const fault = faultOf(answer);
    if (fault) faults.push(`${name}: ${fault}`);
  }
  expect(faults).toEqual([]);
});

test("a body of another type than JSON is refused everywhere, whatever it holds", async () => {
  const faults: string[] = [];
  for (const name of withBody) {
    const given = await prepare(name, make);
    for (const type of [
      "text/plain",
      "text/xml",
      "application/x-www-form-urlencoded",
      "multipart/form-data; boundary=x",
      "application/octet-stream",
      "application/jsonx",
      "json",
      "",
    ]) {
      const request = requestOf(name, given, cookieFor(name));
      const headers = { ...request.headers, "content-type": type };
      const answer = await client.send({ ...request, headers });
      const fault = faultOf(answer) ?? (answer.status === 415 ? undefined : answer.text);
      if (fault) faults.push(`${name} as '${type}': ${fault}`);
    }
  }
  expect(faults).toEqual([]);
});

test("a query with a word twice, as a list, as an object or unknown is refused everywhere", async () => {
  const faults: string[] = [];
  for (const name of withQuery) {
    const { query = {} } = await prepare(name, make);
    for (const [key, value] of Object.entries(query)) {
      for (const broken of [
        { ...query, [key]: [value, value] },
        { ...query, [`${key}[]`]: value },
        { ...query, [`${key}[a]`]: value },
        { ...query, __proto__x: value },
      ]) {
        const answer = await client.send(requestOf(name, { query: broken }, cookieFor(name)));
        const fault = faultOf(answer);
        if (fault) faults.push(`${name} ${JSON.stringify(broken)}: ${fault}`);
      }
    }
  }
  expect(faults).toEqual([]);
});

test("an address that cannot be read is refused", async () => {
  const cookie = cookies.get("office")!;
  const faults: string[] = [];
  for (const path of [
    "/products/%",
    "/products/%zz",
    "/products/%00",
    "/products/%c0%af",
    "/products/%ED%A0%80",
    "/products/..%2f..%2fetc%2fpasswd",
    `/products/${"a".repeat(201)}`,
    `/products/${"a".repeat(8_000)}`,
    "/products/constructor",
    "/products/__proto__",
    "//products",
    "/no-such-thing",
    "/products/x/confirmation/y",
    "/trays?on=%zz&on",
    `/trays?${"a=1&".repeat(3_000)}`,
  ]) {
    for (const method of ["GET", "POST", "PUT", "DELETE", "PATCH"]) {
      const headers = { cookie, "idempotency-key": newId() };
      const answer = await client.send({ method, path: `${apiPrefix}${path}`, headers });
      const fault = faultOf(answer, path.startsWith("/trays") || path === "//products");
      if (fault) faults.push(`${method} ${path.slice(0, 60)}: ${fault}`);
    }
  }
  expect(faults).toEqual([]);
});

test("what is no HTTP is refused, and the connection ended", async () => {
  const host = "Host: localhost\r\n";
  const path = `${apiPrefix}/session`;
  const large = `GET ${path} HTTP/1.1\r\n${host}Cookie: ${"a".repeat(17_000)}\r\n\r\n`;
  expect(await client.speak(large)).toMatch(/^HTTP\/1\.1 431 /);
  for (const text of [
    `NOPE ${path} HTTP/1.1\r\n${host}\r\n`,
    `GET ${path} HTTP/1.1\r\n\r\n`,
    `GET ${path} HTTP/1.1\r\n${host}Bad Name: x\r\n\r\n`,
    // Two lengths of one body: the way in for a smuggled request.
    `POST ${path} HTTP/1.1\r\n${host}Content-Length: 5\r\n` +
      "Transfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
  ]) {
    expect(await client.speak(text)).toMatch(/^HTTP\/1\.1 400 /);
  }
});

test("a method that no operation has is refused", async () => {
  for (const method of ["TRACE", "OPTIONS", "PATCH", "COPY"]) {
    const headers = { cookie: cookies.get("owner")! };
    const answer = await client.send({ method, path: `${apiPrefix}/people`, headers });
    expect([method, answer.status, faultOf(answer)]).toEqual([method, 404, undefined]);
  }
});

test("a cookie of another form, or with another practice's id, is nobody's", async () => {
  const token = cookies.get("owner")!.split(".")[1]!;
  for (const cookie of [
    "tubule_session=",
    "tubule_session=x.y",
    `tubule_session=${newId()}.${token}`,
    `tubule_session=${it.practice.actor.practiceId}.${token.slice(0, -1)}`,
    `tubule_session=${it.practice.actor.practiceId}.${"A".repeat(43)}`,
    `tubule_session=%00.${token}`,
    `tubule_session=%zz`,
  ]) {
    const answer = await client.send(requestOf("getSession", {}, cookie));
    expect([cookie, answer.status]).toEqual([cookie, 401]);
    expect(faultOf(answer)).toBeUndefined();
  }
});

test("a write without an Idempotency-Key, or with one of another form, is refused", async () => {
  const body = { name: "Another room", kind: "operatory" };
  for (const key of [
    undefined,
    "",
    "short",
    "a".repeat(129),
    "with a space in it",
    "täglich-neu",
  ]) {
    const request = requestOf("addLocation", { body }, cookies.get("office")!);
    const { "idempotency-key": _new, ...headers } = request.headers;
    const answer = await client.send({
      ...request,
      headers: key === undefined ? headers : { ...headers, "idempotency-key": key },
    });
    expect(answer.status).toBe(400);
    expect(JSON.parse(answer.text).type).toBe("/problems/idempotency-key-missing");
  }
});

test("a page of another site can write nothing", async () => {
  const body = { name: "A room of theirs", kind: "operatory" };
  for (const headers of [
    { origin: "https://elsewhere.example" },
    { origin: "null" },
    { origin: "http://127.0.0.1:1" },
    { origin: "not an address" },
    { "sec-fetch-site": "cross-site" },
    { "sec-fetch-site": "same-site" },
  ]) {
    const request = requestOf("addLocation", { body }, cookies.get("office")!);
    const answer = await client.send({
      ...request,
      headers: { ...request.headers, ...headers } as Record<string, string>,
    });
    expect(answer.status).toBe(403);
    expect(JSON.parse(answer.text).type).toBe("/problems/foreign-origin");
  }
  const { ok } = await it.practice.office.call("listLocations");
  expect(ok.locations.map(({ name }) => name)).not.toContain(body.name);
});
