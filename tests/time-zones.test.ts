/**
 * Which day it is, is a question of the practice's zone: not of the server's, the database's or the
 * tablet's. Days begin at instants written out here by hand (rules of the IANA database, release
 * 2026, from memory): summer time begins and ends on 8 March and 1 November 2026 in Los Angeles, on
 * 29 March and 25 October in Berlin, on 27 September and 5 April in Auckland.
 */
import { spawn } from "node:child_process";
import { createRequire } from "node:module";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { poolOf } from "../apps/api/src/db/data-source.ts";
import { openApp, type TestApp } from "./helpers/app.ts";
import { asOwner } from "./helpers/database.ts";
import { gs1Label, Maker, type MadeContainer, type MadeProduct } from "./helpers/make.ts";

interface Day {
  date: string;
  next: string;
  /** The first instant of the day and of the next one. */
  starts: string;
  ends: string;
  hours: number;
  /** Thirty days before and after it. */
  opened: string;
  later: string;
}
const june = { date: "2026-06-20", next: "2026-06-21", opened: "2026-05-21", later: "2026-07-20" };
const leap = { date: "2028-02-29", next: "2028-03-01", opened: "2028-01-30", later: "2028-03-30" };

const zones: Record<string, Day[]> = {
  "Pacific/Auckland": [
    {
      date: "2026-04-05",
      next: "2026-04-06",
      starts: "2026-04-04T11:00:00.000Z",
      ends: "2026-04-05T12:00:00.000Z",
      hours: 25,
      opened: "2026-03-06",
      later: "2026-05-05",
    },
    { ...june, starts: "2026-06-19T12:00:00.000Z", ends: "2026-06-20T12:00:00.000Z", hours: 24 },
    {
      date: "2026-09-27",
      next: "2026-09-28",
      starts: "2026-09-26T12:00:00.000Z",
      ends: "2026-09-27T11:00:00.000Z",
      hours: 23,
      opened: "2026-08-28",
      later: "2026-10-27",
    },
    { ...leap, starts: "2028-02-28T11:00:00.000Z", ends: "2028-02-29T11:00:00.000Z", hours: 24 },
  ],
  "America/Los_Angeles": [
    {
      date: "2026-03-08",
      next: "2026-03-09",
      starts: "2026-03-08T08:00:00.000Z",
      ends: "2026-03-09T07:00:00.000Z",
      hours: 23,
      opened: "2026-02-06",
      later: "2026-04-07",
    },
    { ...june, starts: "2026-06-20T07:00:00.000Z", ends: "2026-06-21T07:00:00.000Z", hours: 24 },
    {
      date: "2026-11-01",
      next: "2026-11-02",
      starts: "2026-11-01T07:00:00.000Z",
      ends: "2026-11-02T08:00:00.000Z",
      hours: 25,
      opened: "2026-10-02",
      later: "2026-12-01",
    },
    { ...leap, starts: "2028-02-29T08:00:00.000Z", ends: "2028-03-01T08:00:00.000Z", hours: 24 },
  ],
  "Europe/Berlin": [
    {
      date: "2026-03-29",
      next: "2026-03-30",
      starts: "2026-03-28T23:00:00.000Z",
      ends: "2026-03-29T22:00:00.000Z",
      hours: 23,
      opened: "2026-02-27",
      later: "2026-04-28",
    },
    { ...june, starts: "2026-06-19T22:00:00.000Z", ends: "2026-06-20T22:00:00.000Z", hours: 24 },
    {
      date: "2026-10-25",
      next: "2026-10-26",
      starts: "2026-10-24T22:00:00.000Z",
      ends: "2026-10-25T23:00:00.000Z",
      hours: 25,
      opened: "2026-09-25",
      later: "2026-11-24",
    },
    { ...leap, starts: "2028-02-28T23:00:00.000Z", ends: "2028-02-29T23:00:00.000Z", hours: 24 },
  ],
};

/** The zone that this process is set to by the last test below; undefined where it is not. */
const child = process.env["TUBULE_ZONE_CHILD"];
const before = (instant: string) => new Date(Date.parse(instant) - 1).toISOString();

describe.each(Object.entries(zones))("in %s", (zone, days) => {
  let it: TestApp;
  let make: Maker;
  let flow: MadeProduct;
  let primer: MadeProduct;
  let gel: MadeProduct;
  beforeAll(async () => {
    it = await openApp(zone);
    await wakeUpAt("2026-01-15T12:00:00.000Z");
    make = await Maker.of(it.practice);
    flow = await make.product("flowable");
    primer = await make.product("primer", { inUseLife: { count: 30, unit: "day" } });
    gel = await make.product("glycerin-gel");
  });
  afterAll(() => it.close());

  /** Moves the clock, and with it the sessions, which twelve hours without a request would end. */
  async function wakeUpAt(instant: string): Promise<void> {
    it.clock.set(instant);
    const moved = "last_seen_at = $1, expires_at = $1::timestamptz + interval '7 days'";
    await asOwner(it.database, `update session set ${moved}`, [instant]);
  }
  const open = async (one: MadeContainer, on?: string) => {
    const given = { params: { containerId: one.id }, body: on === undefined ? {} : { on } };
    return (await it.practice.assistant.call("openContainer", given)).ok.openedOn;
  };
  const received = async (product: MadeProduct, useBy: string) =>
    (await make.received(product, { useBy })).first;
  const arrive = (useBy: string) =>
    it.practice.assistant.call("receive", {
      params: { deliveryId: make.deliveryId },
      body: {
        barcodes: [gs1Label({ gtin: flow.gtin, lot: make.name("L"), useBy })],
        locationId: make.places.store,
      },
    });

  /** What the check says of each item of a tray, of what depends on the day alone. */
  async function datesOf(trayId: string): Promise<Record<string, string[]>> {
    const { items, check } = (await it.practice.dentist.call("getTray", { params: { trayId } })).ok;
    const dated = ["past-use-by", "past-in-use-life", "short-dated", "ends-before-appointment"];
    return Object.fromEntries(
      items.map(({ id, productName }) => [
        productName,
        check.findings
          .filter(({ code, subject }) => subject.itemId === id && dated.includes(code))
          .map(({ code }) => code),
      ]),
    );
  }

  test.each(days)(
    "$date, of $hours hours, ends at its own midnight: use-by, in-use life, short date, opening",
    async ({ date, next, starts, ends, hours, opened, later }) => {
      expect(Date.parse(ends) - Date.parse(starts)).toBe(hours * 3_600_000);
      await wakeUpAt(starts);
      const onTray = [await received(flow, date), await received(primer, later)];
      onTray.push(await received(gel, later));
      const spare = [await received(primer, later), await received(primer, later)];
      await open(onTray[1]!, opened);
      const { id } = await make.tray({ appointmentAt: starts });
      for (const { code } of onTray) await make.scanned(id, code);
      const today = async () => (await it.practice.office.call("getToday")).ok.on;
      const said = (flows: string, primers: string, gels: string[]) => ({
        [flow.name]: [flows],
        [primer.name]: [primers],
        [gel.name]: gels,
      });

      const lastDay = said("short-dated", "short-dated", []);
      const dayAfter = said("past-use-by", "past-in-use-life", ["short-dated"]);
      expect([await today(), await datesOf(id)]).toEqual([date, lastDay]);
      await wakeUpAt(before(ends));
      expect([await today(), await datesOf(id)]).toEqual([date, lastDay]);
      expect(await open(spare[0]!)).toBe(date);
      expect((await arrive(date)).status).toBe(201);
      it.clock.set(ends);
      expect([await today(), await datesOf(id)]).toEqual([next, dayAfter]);
      expect(await open(spare[1]!)).toBe(next);
      expect((await arrive(date)).problem).toBe("expired-delivery");
    },
  );

  test.each(days)("the trays of $date are those of its $hours hours", async (day) => {
    const { date, next, starts, ends } = day;
    const at = async (appointmentAt: string) => (await make.tray({ appointmentAt })).id;
    const [evening, first] = [await at(before(starts)), await at(starts)];
    const [last, morning] = [await at(before(ends)), await at(ends)];
    const on = async (query: { on: string }) =>
      (await it.practice.office.call("listTrays", { query })).ok.trays.map(({ id }) => id);
    const ofDay = await on({ on: date });
    expect(ofDay).toEqual(expect.arrayContaining([first, last]));
    expect([ofDay.includes(evening), ofDay.includes(morning)]).toEqual([false, false]);
    expect(await on({ on: next })).toContain(morning);
  });

  test("dates of the trade come back as they were given, on every way out", async () => {
    const dates = [...days.flatMap(({ date, next }) => [date, next]), "2029-01-01", "2029-12-31"];
    await wakeUpAt(days[0]!.starts);
    for (const useBy of dates.filter((each) => each >= days[0]!.date)) {
      const lot = await make.received(gel, { useBy });
      const params = { containerId: lot.first.id };
      const { office } = it.practice;
      const scan = (await office.call("readScan", { body: { barcodes: [lot.label] } })).ok;
      const { container } = (await office.call("getContainer", { params })).ok;
      const query = { lot: lot.lot };
      const listed = (await office.call("listContainers", { query })).ok.containers[0];
      const traced = (await office.call("traceStock", { query })).ok.lots[0];
      const seen = [lot, scan.reading, container, listed, traced].map((each) => each?.useBy?.date);
      expect([...seen, container.endsOn?.date]).toEqual(Array(6).fill(useBy));
    }
  });

  test("a month is its last day, and months after opening are clamped to one", async () => {
    await wakeUpAt("2027-08-31T12:00:00.000Z");
    const product = await make.product("primer", { inUseLife: { count: 6, unit: "month" } });
    const scan = async (month: string) => {
      const body = { barcodes: [`]d201${product.gtin}17${month}0010M-${month}`] };
      return (await it.practice.office.call("readScan", { body })).ok.reading.useBy;
    };
    expect(await scan("2802")).toEqual({ date: "2028-02-29", precision: "month" });
    expect(await scan("2902")).toEqual({ date: "2029-02-28", precision: "month" });
    const one = await received(product, "2029-12-31");
    await open(one, "2027-08-31");
    const params = { containerId: one.id };
    const { container } = (await it.practice.office.call("getContainer", { params })).ok;
    expect(container.endsOn).toEqual({ date: "2028-02-29", decidedBy: "in-use-life" });
  });

  test("a clock that is set back leaves the trail and the ledger whole", async () => {
    await wakeUpAt("2027-09-01T12:00:00.000Z");
    const { first } = await make.received(gel, { useBy: "2029-12-31" });
    await wakeUpAt("2027-08-30T12:00:00.000Z");
    const body = {
      containerId: first.id,
      fromLocationId: make.places.store,
      toLocationId: make.places.operatory,
      reason: "moved" as const,
    };
    expect((await it.practice.assistant.call("move", { body })).status).toBe(201);
    const { ok } = await it.practice.owner.call("verifyAudit");
    expect(ok).toMatchObject({ ok: true, fault: null, ledger: { differences: 0 } });
  });
});

interface Results {
  numPassedTests: number;
  numFailedTests: number;
  testResults: { message: string }[];
}

/** Where the server, and where the database, is set to another zone than the practice. */
interface Setting {
  server: string;
  database: string;
  practice: string;
  /** Minutes by which the server's clock is behind UTC in January. */
  offset: number;
}
const settings: Setting[] = [
  {
    server: "Pacific/Auckland",
    database: "Europe/Berlin",
    practice: "America/Los_Angeles",
    offset: -780,
  },
  {
    server: "America/Los_Angeles",
    database: "Europe/Berlin",
    practice: "Pacific/Auckland",
    offset: 480,
  },
];

/** The tests of one practice's zone in a process whose clock and connections are set to others. */
function runIn({ server, database, practice }: Setting): Promise<Results> {
  const { resolve } = createRequire(import.meta.url);
  const file = import.meta.url.replace(/.*\//, "");
  const which = `^in ${practice}|^a process set to`;
  const words = [resolve("jest/bin/jest"), "--json", file, "--testNamePattern", which];
  const flags = ["--experimental-vm-modules", "--no-warnings"];
  const running = spawn(process.execPath, [...flags, ...words], {
    env: {
      ...process.env,
      TZ: server,
      PGOPTIONS: `-c TimeZone=${database}`,
      TUBULE_ZONE_CHILD: server,
    },
    stdio: ["ignore", "pipe", "ignore"],
  });
  let said = "";
  running.stdout.on("data", (chunk: Buffer) => (said += chunk.toString()));
  return new Promise((done, fail) => {
    running.on("error", fail);
    running.on("close", () => done(JSON.parse(said) as Results));
  });
}

if (child === undefined) {
  test("all of it holds where server and database are set to other zones", async () => {
    const results = await Promise.all(settings.map(runIn));
    for (const { numPassedTests, numFailedTests, testResults } of results) {
      const messages = testResults.map(({ message }) => message).join("\n");
      expect([numFailedTests, messages]).toEqual([0, ""]);
      expect(numPassedTests).toBe(2 * 4 + 3 + 1);
    }
  }, 300_000);
} else {
  test("a process set to another zone is in it, and so are its connections", async () => {
    const { offset, database } = settings.find(({ server }) => server === child)!;
    expect(new Date(2026, 0, 1).getTimezoneOffset()).toBe(offset);
    const it = await openApp();
    const { rows } = await poolOf(it.db).query<object>("show timezone");
    await it.close();
    expect(rows).toEqual([{ TimeZone: database }]);
  });
}
