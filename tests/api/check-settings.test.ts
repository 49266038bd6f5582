/** What a practice may set of its checks, and that the next check heeds it. */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const starting = {
  shortDatedDays: 30,
  airDrySeconds: { acetone: 5, ethanol: 10, "tert-butanol": 10, water: 15 },
  lightCeilingMwCm2: 2000,
  lightFloorMwCm2: 400,
  lightCheckDays: 30,
  waitingLimitDays: 21,
  raised: [],
};
const change = (body: object) =>
  it.practice.dentist.call("changeCheckSettings", { body: { ...starting, ...body } });

test("a practice begins with the defaults and is told what it can raise", async () => {
  const { checks, ...settings } = (await it.practice.assistant.call("getCheckSettings")).ok;
  expect(settings).toEqual(starting);
  expect(checks).toContainEqual({ code: "past-use-by", level: "stop", fixed: true });
  expect(checks).toContainEqual({ code: "unconfirmed", level: "caution", fixed: false });
});

test("a raised caution is a stop at the next check, and a caution again once lowered", async () => {
  const product = await make.product("flowable", { confirmed: false });
  const { first } = await make.received(product);
  const { id } = await make.tray();
  const levelNow = async () => {
    const { check } = (await it.practice.dentist.call("getTray", { params: { trayId: id } })).ok;
    return check.findings.find(({ code }) => code === "unconfirmed")?.level;
  };
  await make.scanned(id, first.code);
  expect(await levelNow()).toBe("caution");
  expect((await change({ raised: ["unconfirmed", "unconfirmed"] })).ok.raised).toEqual([
    "unconfirmed",
  ]);
  expect(await levelNow()).toBe("stop");
  await change({});
  expect(await levelNow()).toBe("caution");
});

test("days left and drying times count from the next check on", async () => {
  const { first } = await make.received(await make.product("flowable"), { useBy: "2026-07-15" });
  const primer = await make.product("primer", { airDrySeconds: null });
  const { id } = await make.tray();
  await make.scanned(id, (await make.received(primer)).first.code);
  await make.scanned(id, first.code);
  const codesNow = async () => {
    const { check } = (await it.practice.dentist.call("getTray", { params: { trayId: id } })).ok;
    return check.findings.map(({ code }) => code);
  };
  // 30 days are left, and 10 s are planned for a primer in water.
  const airDrySeconds = { ...starting.airDrySeconds, water: 10 };
  await change({ airDrySeconds });
  expect(await codesNow()).not.toEqual(expect.arrayContaining(["short-dated"]));
  expect(await codesNow()).not.toEqual(expect.arrayContaining(["drying-too-short"]));
  await change({ shortDatedDays: 31, airDrySeconds: { ...airDrySeconds, water: 11 } });
  expect(await codesNow()).toEqual(expect.arrayContaining(["short-dated", "drying-too-short"]));
  await change({});
});

test("a stop or a note cannot be raised, and what is wrong is named", async () => {
  for (const code of ["past-use-by", "earlier-exists"]) {
    const { problem, body } = await change({ raised: ["unconfirmed", code] });
    expect(problem).toBe("invalid-request");
    expect(body).toMatchObject({ errors: [{ path: "/body/raised/1" }] });
  }
  expect((await change({ shortDatedDays: -1 })).problem).toBe("invalid-request");
});

test("what was set before and after is in the audit trail", async () => {
  await change({ shortDatedDays: 45 });
  const { entries } = (await it.practice.owner.call("listAudit", { query: { limit: 1 } })).ok;
  expect(entries[0]?.action).toBe("checks-changed");
  expect(JSON.parse(entries[0]!.change)).toMatchObject({
    before: { shortDatedDays: 30 },
    after: { shortDatedDays: 45 },
  });
});
