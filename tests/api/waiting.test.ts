/** Sealed teeth that wait for their restoration: for how long, and who leaves the list. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "@jest/globals";
import { Temporal } from "temporal-polyfill";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { beginAt, bondTooth, sealTooth } from "../helpers/seals.ts";

const zone = "Europe/Berlin";
let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp(zone);
  make = await Maker.of(it.practice);
});
beforeEach(() => it.clock.set("2026-06-15T08:00:00.000Z"));
afterAll(() => it.close());

type List = "waiting" | "overdue" | "off";
const list = async (chart?: string, told: { list?: List; limit?: number; after?: string } = {}) => {
  const query = chart === undefined ? told : { chart, ...told };
  return (await it.practice.assistant.call("listWaiting", { query })).ok;
};
const idsOf = async (chart: string, which: List = "waiting") =>
  (await list(chart, { list: which })).seals.map(({ sealId }) => sealId);
const change = (sealId: string, body: BodyOf<"changeWaiting">, key?: string) =>
  it.practice.office.call("changeWaiting", {
    params: { sealId },
    body,
    ...(key === undefined ? {} : { key }),
  });

const setLimit = async (waitingLimitDays: number) => {
  const { checks: _, ...settings } = (await it.practice.owner.call("getCheckSettings")).ok;
  const body = { ...settings, waitingLimitDays };
  expect((await it.practice.owner.call("changeCheckSettings", { body })).status).toBe(200);
};

describe("a sealed tooth on the list", () => {
  test("comes with its provisional's cement and lot, what is planned, and what it needs", async () => {
    const cement = await make.product("provisional-cement", { contents: ["eugenol"] });
    const products = [
      cement,
      await make.usualProduct("flowable"),
      await make.usualProduct("separating-agent"),
    ];
    const record = await sealTooth(make, {
      products,
      tooth: { tooth: "26", provisional: "resin", restoration: "onlay" },
      plan: { bondingOn: "2026-06-29" },
    });
    const { chartNumber } = record;
    const cementUsed = record.materials.find(({ productName }) => productName === cement.name);
    const { on, limitDays, seals, next } = await list(chartNumber);
    expect([on, limitDays, next]).toEqual(["2026-06-15", 21, null]);
    expect(seals).toEqual([
      {
        sealId: record.id,
        chartNumber,
        tooth: "26",
        sealedOn: "2026-06-15",
        days: 0,
        overdue: false,
        restoration: "onlay",
        provisional: "resin",
        cement: { productName: cement.name, lotId: cementUsed!.lotId, lot: cementUsed!.lot },
        plannedOn: "2026-06-29",
        visit: null,
        bonded: false,
        off: null,
        needs: expect.anything(),
      },
    ]);
    expect(seals[0]!.needs.map(({ code }) => code)).toEqual([
      "remnants",
      "eugenol",
      "separator-film",
      "clean",
      "roughen-coat",
      "bond-again",
    ]);
    const { trayId } = await make.smallTray({ chartNumber, teeth: [{ tooth: "26" }] });
    expect((await list(chartNumber)).seals[0]!.visit).toEqual({
      trayId,
      appointmentAt: "2026-06-15T09:00:00.000Z",
      state: "setting",
    });
    await it.practice.assistant.call("clearTray", { params: { trayId }, body: {} });
    expect((await list(chartNumber)).seals[0]!.visit).toBeNull();
  });

  test("says where the cement was not scanned, and what got onto the surface", async () => {
    const cement = await make.product("provisional-cement");
    const missed = { kind: "not-scanned", stepKey: "provisional", productId: cement.id } as const;
    const { chartNumber } = await sealTooth(make, {
      events: [
        { ...missed, reason: "label torn off" },
        { kind: "deviation", what: "saliva" },
        { kind: "deviation", what: "dropped" },
      ],
    });
    const [seal] = (await list(chartNumber)).seals;
    expect(seal!.cement).toEqual({ productName: cement.name, lotId: null, lot: null });
    expect(seal!.needs).toContainEqual({
      code: "contaminated",
      level: "caution",
      numbers: { reason: "saliva" },
      source: "from-memory",
    });
    expect(seal!.needs.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["eugenol-free", "roughen-thin"]),
    );
  });

  test("is there once it is signed, and on no list of another practice", async () => {
    const { id } = await make.tray();
    const tray = (await it.practice.assistant.call("getTray", { params: { trayId: id } })).ok;
    expect(await idsOf(tray.chartNumber)).toEqual([]);
    const other = await it.addPractice("elsewhere");
    const record = await sealTooth(make);
    expect(await idsOf(record.chartNumber)).toEqual([record.id]);
    const there = await other.dentist.call("listWaiting", {
      query: { chart: record.chartNumber },
    });
    expect(there.ok.seals).toEqual([]);
    const params = { sealId: record.id };
    const body = { waits: false, reason: "tooth-lost" } as const;
    expect((await other.office.call("changeWaiting", { params, body })).problem).toBe("not-found");
  });

  test("stands in the order of the wait, and page after page each once", async () => {
    const chartNumber = make.name("C");
    const made = [];
    for (const [tooth, at] of [
      ["11", "2026-06-12T08:00:00Z"],
      ["12", "2026-06-10T08:00:00Z"],
      ["13", "2026-06-10T08:00:00Z"],
      ["14", "2026-06-11T08:00:00Z"],
    ] as const) {
      const { id } = await sealTooth(make, { tooth: { tooth }, plan: { chartNumber } });
      await beginAt(it, id, at);
      made.push(id);
    }
    const [first, second, third, fourth] = made as [string, string, string, string];
    const expected = [...[second, third].sort(), fourth, first];
    expect(await idsOf(chartNumber)).toEqual(expected);
    const seen: string[] = [];
    let after: string | null = null;
    do {
      const page = await list(chartNumber, { limit: 1, ...(after === null ? {} : { after }) });
      seen.push(...page.seals.map(({ sealId }) => sealId));
      after = page.next;
    } while (after !== null);
    expect(seen).toEqual(expected);
  });
});

/** An independent calendar: the days between two instants on the practice's wall. */
const daysBetween = (from: string, to: string): number => {
  const dayOf = (at: string) => Temporal.Instant.from(at).toZonedDateTimeISO(zone).toPlainDate();
  return dayOf(from).until(dayOf(to), { largestUnit: "day" }).days;
};

describe("the days of a wait", () => {
  // Summer time begins in Berlin on 29 March 2026 and ends on 25 October (IANA database).
  test.each([
    ["2026-03-28T22:59:59.000Z", "2026-03-29T22:00:00.000Z"],
    ["2026-03-28T23:00:00.000Z", "2026-03-29T21:59:59.000Z"],
    ["2026-03-29T21:59:59.000Z", "2026-03-29T22:00:00.000Z"],
    ["2026-03-20T10:00:00.000Z", "2026-04-10T09:00:00.000Z"],
    ["2026-10-24T21:59:59.000Z", "2026-10-25T22:59:59.000Z"],
    ["2026-10-24T22:00:00.000Z", "2026-10-25T23:00:00.000Z"],
    ["2026-12-31T22:59:59.000Z", "2026-12-31T23:00:00.000Z"],
    ["2028-02-28T12:00:00.000Z", "2028-03-20T12:00:00.000Z"],
    ["2028-02-28T12:00:00.000Z", "2028-03-21T12:00:00.000Z"],
  ])("from %s to %s are those of the practice's calendar", async (from, to) => {
    const record = await sealTooth(make);
    await beginAt(it, record.id, from);
    it.clock.set(to);
    await it.practice.assistant.signIn("assistant");
    const [seal] = (await list(record.chartNumber)).seals;
    const days = daysBetween(from, to);
    expect([seal!.days, seal!.overdue]).toEqual([days, days > 21]);
    expect(await idsOf(record.chartNumber, "overdue")).toEqual(days > 21 ? [record.id] : []);
    it.clock.set("2026-06-15T08:00:00.000Z");
    await it.practice.assistant.signIn("assistant");
  });

  test("are overdue after the practice's own limit, from midnight on", async () => {
    const record = await sealTooth(make);
    await beginAt(it, record.id, "2026-06-07T21:59:59Z");
    const overdueAt = async (limit: number) => {
      await setLimit(limit);
      return (await idsOf(record.chartNumber, "overdue")).length;
    };
    // Sealed on 7 June, now it is the 15th.
    expect([await overdueAt(7), await overdueAt(8), await overdueAt(9)]).toEqual([1, 0, 0]);
    await beginAt(it, record.id, "2026-06-07T22:00:00Z");
    expect(await overdueAt(7)).toBe(0);
    await setLimit(21);
  });

  test("are on Today where they are too many and nobody has planned the bonding", async () => {
    const waiting = async () => (await it.practice.office.call("getToday")).ok.waiting;
    const before = await waiting();
    const record = await sealTooth(make);
    await beginAt(it, record.id, "2026-01-15T12:00:00Z");
    const days = daysBetween("2026-01-15T12:00:00Z", "2026-06-15T08:00:00Z");
    const overdue = before.overdue + 1;
    expect(await waiting()).toEqual({ overdue, longestDays: days, limitDays: 21 });
    await make.tray({ technique: "bond-restoration", chartNumber: record.chartNumber });
    expect(await waiting()).toEqual(before);
  });
});

describe("a tooth that will not come back", () => {
  test("is taken off with a reason by name and time, and put back", async () => {
    const { id, chartNumber } = await sealTooth(make);
    const body = { waits: false, reason: "moved-away", note: " to the coast " } as const;
    const key = newId();
    const gone = await change(id, body, key);
    const off = {
      reason: "moved-away",
      note: "to the coast",
      by: "office",
      at: "2026-06-15T08:00:00.000Z",
    };
    expect(gone.ok).toMatchObject({ sealId: id, overdue: false, off });
    expect((await change(id, body, key)).ok).toEqual(gone.ok);
    expect([await idsOf(chartNumber), await idsOf(chartNumber, "overdue")]).toEqual([[], []]);
    expect((await list(chartNumber, { list: "off" })).seals).toMatchObject([{ sealId: id, off }]);
    expect((await change(id, body)).problem).toBe("waiting-unchanged");
    expect((await change(id, { waits: true, note: "is back" })).ok.off).toBeNull();
    expect((await change(id, { waits: true })).problem).toBe("waiting-unchanged");
    expect([await idsOf(chartNumber), await idsOf(chartNumber, "off")]).toEqual([[id], []]);
    expect((await change(id, { waits: false, reason: "tooth-lost" })).ok.off).toMatchObject({
      reason: "tooth-lost",
    });
    const { entries } = (await it.practice.owner.call("listAudit", { query: { limit: 500 } })).ok;
    const told = entries.filter(({ subject }) => subject === `record:${id}`);
    expect(told.slice(0, 3).map(({ action }) => action)).toEqual([
      "waiting-ended",
      "waiting-resumed",
      "waiting-ended",
    ]);
  });

  test("needs words where the reason is none of those named", async () => {
    const { id } = await sealTooth(make);
    const refused = await change(id, { waits: false, reason: "other", note: " a " });
    expect(refused.problem).toBe("invalid-request");
    expect(refused.body).toMatchObject({ errors: [{ path: "/body/note" }] });
    const told = await change(id, { waits: false, reason: "other", note: "sealed once more" });
    expect(told.status).toBe(201);
  });

  test("is not one that is bonded, nor one that was never sealed", async () => {
    const { id, chartNumber } = await sealTooth(make);
    const bonding = await bondTooth(make, { chartNumber });
    const body = { waits: false, reason: "tooth-lost" } as const;
    expect((await change(id, body)).problem).toBe("waiting-unchanged");
    expect((await change(bonding.id, body)).problem).toBe("not-found");
    expect((await change(newId(), body)).problem).toBe("not-found");
  });
});
