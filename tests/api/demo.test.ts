/** The demonstration tells its three stories, whatever the day and the zone it is made in. */
import type { Socket } from "node:net";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { NestFastifyApplication } from "@nestjs/platform-fastify";
import type { AnswerOf } from "#contracts/operations";
import { makeApp } from "../../apps/api/src/app.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { demoAccounts, renewDemo, seedDemo } from "../../apps/api/src/demo/seed-demo.ts";
import { Person, TestClock } from "../helpers/app.ts";
import { cloneDatabase, type TestDatabase } from "../helpers/database.ts";

let database: TestDatabase;
let app: NestFastifyApplication;
const clock = new TestClock();
// The year's last evening in UTC is the next year's first morning in Auckland.
const told = { now: new Date("2026-12-31T21:00:00.000Z"), timeZone: "Pacific/Auckland" };
const today = "2027-01-01";
const people = new Map<string, Person>();
const by = (signInName: string): Person => people.get(signInName)!;

beforeAll(async () => {
  database = await cloneDatabase();
  clock.set(told.now.toISOString());
  app = await makeApp({ db: await connect(database.appUrl), clock, logLevel: "silent" });
  expect(await seedDemo(app, told)).toBe(true);
  for (const { signInName, password } of demoAccounts) {
    const person = new Person(app, "nobody", newId());
    const { ok } = await person.call("signIn", { body: { signInName, password } });
    expect(ok.practice).toMatchObject({ demonstration: true, timeZone: "Pacific/Auckland" });
    people.set(signInName, person);
  }
}, 60_000);
afterAll(async () => {
  await app.close();
  await database.drop();
});

type Tray = AnswerOf<"getTray">;
async function trayOf(chartNumber: string): Promise<Tray> {
  const { trays } = (await by("assistant").call("listTrays")).ok;
  const { id } = trays.find((each) => each.chartNumber === chartNumber)!;
  return (await by("dentist").call("getTray", { params: { trayId: id } })).ok;
}
const stopsOf = ({ check }: Tray) => check.findings.filter(({ level }) => level === "stop");

test("is made for each role, on an empty database only, and says what it is", async () => {
  expect(demoAccounts.map(({ signInName }) => signInName).sort()).toEqual([
    "assistant",
    "dentist",
    "office",
    "owner",
  ]);
  expect(await seedDemo(app, told)).toBe(false);
  const { ok } = await by("owner").call("getSetUp");
  expect(ok).toEqual({ needed: false, demonstration: true });
  const { practice } = (await by("owner").call("getSession")).ok;
  expect(practice.name).toContain("demonstration");
});

test("has its trays on the day it was made, in its own zone, each with its verdict", async () => {
  const { on, trays, withdrawals, drafts } = (await by("office").call("getToday")).ok;
  expect(on).toBe(today);
  expect(trays.map(({ chartNumber, verdict }) => [chartNumber, verdict])).toEqual([
    ["C-1007", "stop"],
    ["C-1012", "stop"],
    ["C-1015", "clear"],
  ]);
  expect([withdrawals, drafts]).toEqual([[], []]);
});

test("the first story: an opened primer past its in-use life, and the better one by its place", async () => {
  const tray = await trayOf("C-1007");
  const past = stopsOf(tray).filter(({ code }) => code === "past-in-use-life");
  expect(past).toHaveLength(1);
  expect(past[0]?.subject.name).toMatch(/^Alder Primer C/);
  // Opened 41 days ago, usable for 30.
  expect(past[0]?.numbers).toEqual({
    openedOn: "2026-11-21",
    usableThrough: "2026-12-21",
    today,
  });
  const { numbers } = past[0]!.remedy;
  expect(numbers).toMatchObject({ insteadProduct: "Alder Primer", insteadPlace: "Refrigerator" });
  const code = String(numbers["insteadCode"]).replace("-", "");
  const better = await by("assistant").call("readScan", { body: { barcodes: [code] } });
  expect(better.ok.containers).toMatchObject([{ state: "sealed", lot: "AP-2304" }]);
  expect(tray.check.mayStart).toBe(false);
  const missing = stopsOf(tray).filter(({ code: each }) => each === "missing");
  expect(missing.map(({ subject }) => subject.stepKey)).toEqual(["barrier", "separate"]);
});

test("the second story: an air-dry of 5 s where the primer's instructions ask for 10 s", async () => {
  const tray = await trayOf("C-1012");
  const short = tray.check.findings.filter(({ code }) => code === "drying-too-short");
  expect(short).toHaveLength(1);
  expect(short[0]).toMatchObject({
    level: "stop",
    numbers: { reason: "ifu", plannedSeconds: 5, neededSeconds: 10 },
    because: [
      { what: "planned-air-dry", value: 5, from: "technique" },
      { what: "needed-air-dry", value: 10, from: "ifu" },
    ],
    remedy: { code: "dry-longer" },
  });
  expect(stopsOf(tray)).toEqual(short);
  const params = { trayId: tray.id };
  const refused = await by("dentist").call("startRecord", { params, body: {} });
  expect(refused.problem).toBe("verdict-stops");
});

describe("the third story: lot DF-118O is withdrawn", () => {
  test("its trace names teeth and patients, the tray planned with it, and balances", async () => {
    const { ok } = await by("office").call("traceStock", { query: { lot: "DF-118O" } });
    expect(ok.lots).toHaveLength(1);
    const [lot] = ok.lots;
    expect(lot).toMatchObject({ lot: "DF-118O", patients: 3, product: { name: "Dune Flow" } });
    const teeth = lot?.teeth.map(({ chartNumber, tooth, certainty }) => [
      chartNumber,
      tooth,
      certainty,
    ]);
    expect(teeth).toEqual([
      ["C-1001", "16", "certain"],
      ["C-1002", "24", "certain"],
      ["C-1002", "25", "certain"],
      ["C-1003", "46", "certain"],
    ]);
    expect(lot?.planned).toMatchObject([{ chartNumber: "C-1007", tooth: "16" }]);
    expect(lot?.balance).toMatchObject({
      received: 4,
      onHand: 2,
      usedUp: 1,
      discarded: 1,
      unaccounted: 0,
      balanced: true,
    });
    // DF-1180, with a zero, was received as well and is another lot.
    expect(ok.lookAlikes).toMatchObject([{ lot: "DF-1180" }]);
  });

  test("each patient's trace names it in return", async () => {
    const { ok } = await by("dentist").call("tracePatient", { query: { chart: "C-1002" } });
    expect(ok.teeth.map(({ tooth }) => tooth)).toEqual(["25", "24"]);
    for (const { materials } of ok.teeth) {
      expect(materials.map(({ lot }) => lot)).toContain("DF-118O");
    }
  });

  test("the case is opened, segregated and closed, and nothing is left on a shelf", async () => {
    const { products } = (await by("office").call("listProducts", { query: { q: "Dune" } })).ok;
    const scope = [{ productId: products[0]!.id, lot: "DF-118O" }];
    const body = { reference: "FSN 2027-1", scope };
    const { id } = (await by("office").call("openWithdrawal", { body })).ok;
    const stops = stopsOf(await trayOf("C-1007")).map(({ code }) => code);
    expect(stops).toContain("withdrawn");
    const params = { withdrawalId: id };
    const { ok } = await by("assistant").call("segregate", { params });
    expect(ok.moved).toBe(2);
    expect(ok.withdrawal.trace[0]?.balance).toMatchObject({
      received: 4,
      onHand: 0,
      quarantined: 2,
      usedUp: 1,
      discarded: 1,
      balanced: true,
    });
    const summary = "two set aside, three patients told";
    expect((await by("office").call("closeWithdrawal", { params, body: { summary } })).status).toBe(
      200,
    );
  });
});

test("its audit trail, ledger and signed records hold", async () => {
  const { ok } = await by("owner").call("verifyAudit");
  expect(ok).toMatchObject({ ok: true, fault: null, records: { signed: 5, faults: 0 } });
  expect(ok.ledger.differences).toBe(0);
  expect(ok.entries).toBeGreaterThan(100);
});

test("its published passwords and PINs open nothing from another machine", async () => {
  const office = by("office");
  await office.call("registerDevice", { body: { name: "Tablet" } });
  const { people: offered } = (await office.call("listDevicePeople")).ok;
  const { id } = offered.find(({ displayName }) => displayName === "Asa Linden")!;
  // As the server would see somebody from elsewhere, without listening to anywhere else.
  const distant = (socket: Socket) =>
    Object.defineProperty(socket, "remoteAddress", { value: "192.0.2.7" });
  app.getHttpServer().prependListener("connection", distant);
  try {
    const { signInName, password } = demoAccounts[0]!;
    const byPassword = await office.call("signIn", { body: { signInName, password } });
    expect(byPassword.problem).toBe("demo-on-loopback-only");
    const byPin = await office.call("switchPerson", { body: { personId: id, pin: "2468" } });
    expect(byPin.problem).toBe("demo-on-loopback-only");
  } finally {
    app.getHttpServer().removeListener("connection", distant);
  }
  const near = await office.call("switchPerson", { body: { personId: id, pin: "2468" } });
  expect(near.ok.person.displayName).toBe("Asa Linden");
});

// Last in the file: it puts away what the stories above look at.
test("on another day the trays are set anew, once, and those left of the day before put away", async () => {
  const nextDay = new Date("2027-01-01T21:00:00.000Z");
  await renewDemo(app, told.now);
  expect((await by("assistant").call("listTrays", { query: { on: today } })).ok.trays).toHaveLength(
    3,
  );
  clock.set(nextDay.toISOString());
  await renewDemo(app, nextDay);
  await renewDemo(app, nextDay);
  const { signInName, password } = demoAccounts.find((each) => each.signInName === "assistant")!;
  await by("assistant").call("signIn", { body: { signInName, password } });
  const { trays } = (await by("assistant").call("listTrays", { query: { on: "2027-01-02" } })).ok;
  expect(trays.map(({ chartNumber, verdict }) => [chartNumber, verdict])).toEqual([
    ["C-1007", "stop"],
    ["C-1012", "stop"],
    ["C-1015", "clear"],
  ]);
  const before = (await by("assistant").call("listTrays", { query: { on: today } })).ok.trays;
  expect(before.map(({ state }) => state)).toEqual(["cleared", "cleared", "cleared"]);
});
