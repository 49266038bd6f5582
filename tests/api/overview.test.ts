/** Today's page, the audit trail and its verification. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const today = async () => (await it.practice.assistant.call("getToday")).ok;

describe("today's page", () => {
  test("lists today's trays, as the list of trays does", async () => {
    const later = await make.tray({ appointmentAt: "2026-06-15T14:00:00.000Z" });
    const sooner = await make.tray({ appointmentAt: "2026-06-15T10:00:00.000Z" });
    await make.tray({ appointmentAt: "2026-06-16T10:00:00.000Z" });
    const { on, at, trays } = await today();
    expect([on, at]).toEqual(["2026-06-15", "2026-06-15T08:00:00.000Z"]);
    expect(trays.map(({ id }) => id)).toEqual([sooner.id, later.id]);
    expect(trays).toEqual((await it.practice.office.call("listTrays", {})).ok.trays);
  });

  test("lists what ends soon and is here, the soonest first", async () => {
    const product = await make.product("flowable", { inUseLife: { count: 10, unit: "day" } });
    const end = async (useBy: string) => (await make.received(product, { useBy })).first;
    await end("2026-07-15");
    const second = await end("2026-07-14");
    const first = await end("2026-06-20");
    const opened = await end("2028-03-31");
    const params = { containerId: opened.id };
    await it.practice.assistant.call("openContainer", { params, body: { on: "2026-06-14" } });
    const gone = await end("2026-06-21");
    const body = { containerId: gone.id, fromLocationId: make.places.store };
    const away = { ...body, toLocationId: make.places.discarded, reason: "discarded" as const };
    await it.practice.assistant.call("move", { body: away });
    const { ending } = await today();
    expect(ending.map(({ id, endsOn }) => [id, endsOn])).toEqual([
      [first.id, { date: "2026-06-20", decidedBy: "use-by" }],
      [opened.id, { date: "2026-06-24", decidedBy: "in-use-life" }],
      [second.id, { date: "2026-07-14", decidedBy: "use-by" }],
    ]);
  });

  test("lists unsigned records until they are signed", async () => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    const line = { recordId: record.id, trayId, chartNumber: record.chartNumber, tooth: "16" };
    expect((await today()).drafts).toEqual([{ ...line, startedAt: "2026-06-15T08:00:00.000Z" }]);
    await make.signed(record.id);
    expect((await today()).drafts).toEqual([]);
  });

  test("lists open withdrawals with what still stands outside quarantine", async () => {
    const product = await make.product("bonding-cement");
    const { lot } = await make.received(product, { quantity: 2 });
    const body = { reference: "FSN 1", scope: [{ productId: product.id, lot }] };
    const { id } = (await it.practice.office.call("openWithdrawal", { body })).ok;
    const here = async () => (await today()).withdrawals.map((each) => [each.reference, each.here]);
    expect(await here()).toEqual([["FSN 1", 2]]);
    const params = { withdrawalId: id };
    await it.practice.assistant.call("segregate", { params });
    expect(await here()).toEqual([["FSN 1", 0]]);
    await it.practice.office.call("closeWithdrawal", { params, body: { summary: "returned" } });
    expect(await here()).toEqual([]);
  });

  test("lists entries that nobody has confirmed, or that were changed since", async () => {
    const names = async () => (await today()).unconfirmed.map(({ name }) => name);
    const before = await names();
    const fresh = await make.product("primer", { confirmed: false });
    const changed = await make.product("primer");
    const body = { name: make.name("renamed"), kind: "primer" as const, version: 1 };
    await it.practice.office.call("changeProduct", { params: { productId: changed.id }, body });
    expect(new Set(await names())).toEqual(new Set([...before, fresh.name, body.name]));
  });
});

describe("the audit trail", () => {
  test("tells who did what, the newest first, page by page without a gap", async () => {
    const body = { name: make.name("System") };
    const { id } = (await it.practice.dentist.call("addSystem", { body })).ok;
    const list = async (query: { limit: number; before?: number }) =>
      (await it.practice.office.call("listAudit", { query })).ok.entries;
    const [newest] = await list({ limit: 1 });
    expect(newest).toMatchObject({
      at: "2026-06-15T08:00:00.000Z",
      person: "dentist",
      action: "system-added",
      subject: `system:${id}`,
      change: JSON.stringify(body),
    });
    const all: number[] = [];
    let before: number | undefined;
    for (;;) {
      const page = await list({ limit: 7, ...(before === undefined ? {} : { before }) });
      if (page.length === 0) break;
      all.push(...page.map(({ sequence }) => sequence));
      before = all.at(-1)!;
    }
    expect(all).toEqual(Array.from({ length: newest!.sequence }, (_, n) => newest!.sequence - n));
  });

  test("is whole, and so are the ledger and the signed records", async () => {
    const { ok } = await it.practice.owner.call("verifyAudit");
    expect(ok).toMatchObject({ ok: true, fault: null, records: { signed: 1, faults: 0 } });
    expect(ok.ledger.differences).toBe(0);
    const { entries } = (await it.practice.owner.call("listAudit", { query: { limit: 1 } })).ok;
    expect(ok).toMatchObject({ entries: entries[0]!.sequence, head: entries[0]!.hash });
  });

  test("does not change by being read", async () => {
    const first = (await it.practice.owner.call("verifyAudit")).ok;
    await it.practice.office.call("listAudit", {});
    await it.practice.assistant.call("getToday");
    await it.practice.assistant.call("readScan", { body: { barcodes: ["]E09520000001070"] } });
    expect((await it.practice.owner.call("verifyAudit")).ok).toEqual(first);
  });
});
