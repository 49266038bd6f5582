/** A tray: planned, set by scans, passed by a dentist where it must be, cleared. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { makeContainerCode } from "#domain";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { gs1Label, Maker, newGtin } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const cement = async () => make.received(await make.usualProduct("bonding-cement"));
const scan = (trayId: string, body: BodyOf<"scanIntoTray">) =>
  it.practice.assistant.call("scanIntoTray", { params: { trayId }, body });
const read = async (trayId: string) =>
  (await it.practice.dentist.call("getTray", { params: { trayId } })).ok;
const remove = (trayId: string, itemId: string) =>
  it.practice.assistant.call("removeFromTray", { params: { trayId, itemId } });
const clear = (trayId: string, usedUp: string[] = []) =>
  it.practice.assistant.call("clearTray", { params: { trayId }, body: { usedUp } });
const pass = (trayId: string, body: Partial<BodyOf<"overrideFinding">> = {}) =>
  it.practice.dentist.call("overrideFinding", {
    params: { trayId },
    body: { code: "missing", subject: "cement", reason: "it stands here unscanned", ...body },
  });
const emptyTray = async () => (await make.tray({ technique: "bond-restoration" })).id;
const placeOf = async (containerId: string) => {
  const { ok } = await it.practice.office.call("getContainer", { params: { containerId } });
  return ok.container.location.kind;
};

describe("planning", () => {
  test("makes a tray that lacks everything and says what to fetch", async () => {
    const tray = await make.tray({ chartNumber: "C-77", tooth: "36" });
    expect(tray).toMatchObject({
      chartNumber: "C-77",
      teeth: [{ tooth: "36" }],
      state: "planned",
      items: [],
    });
    expect(tray).toMatchObject({ records: [], location: { name: "Operatory 1" } });
    expect(tray.check).toMatchObject({ verdict: "stop", mayStart: false });
    expect(tray.check.findings.map(({ code, subject }) => [code, subject.stepKey])).toEqual([
      ["missing", "prime"],
      ["missing", "bond"],
      ["missing", "coat"],
      ["missing", "barrier"],
      ["missing", "separate"],
    ]);
  });

  test("suggests first what ends first, and of two alike the open one", async () => {
    const product = await make.product("etchant");
    const late = (await make.received(product, { useBy: "2029-01-31" })).first;
    const sealed = (await make.received(product, { useBy: "2027-01-31" })).first;
    const open = (await make.received(product, { useBy: "2027-01-31" })).first;
    const params = { containerId: open.id };
    await it.practice.assistant.call("openContainer", { params, body: {} });
    const { suggestions } = await make.tray({ technique: "seal-etch-and-rinse-three-step" });
    expect(suggestions["etch"]).toEqual([
      expect.objectContaining({ containerId: open.id, open: true, endsOn: "2027-01-31" }),
      expect.objectContaining({ containerId: sealed.id, open: false, place: "Store" }),
      expect.objectContaining({ containerId: late.id, endsOn: "2029-01-31" }),
    ]);
  });

  test("needs an operatory and a technique of the practice", async () => {
    const plan = {
      chartNumber: "C-1",
      teeth: [{ tooth: "16" }],
      techniqueId: make.techniques["bond-restoration"]!,
      locationId: make.places.operatory,
      appointmentAt: "2026-06-15T09:00:00.000Z",
    };
    const ask = (wrong: Partial<typeof plan>) =>
      it.practice.assistant.call("planTray", { body: { ...plan, ...wrong } });
    expect((await ask({ locationId: make.places.store })).problem).toBe("not-found");
    expect((await ask({ locationId: newId() })).problem).toBe("not-found");
    expect((await ask({ techniqueId: newId() })).problem).toBe("not-found");
    for (const tooth of ["19", "86", "1", "016", "56"]) {
      expect((await ask({ teeth: [{ tooth }] })).problem).toBe("invalid-request");
    }
    expect((await ask({ chartNumber: "  " })).problem).toBe("invalid-request");
    expect((await ask({ appointmentAt: "9999-12-31T23:59:59Z" })).problem).toBe("invalid-request");
    expect((await ask({ teeth: [{ tooth: "55" }] })).status).toBe(201);
  });

  test("is listed on its day with its verdict and how much is missing", async () => {
    const { id } = await make.tray({ appointmentAt: "2026-07-01T09:00:00.000Z" });
    const on = (day: string) => it.practice.office.call("listTrays", { query: { on: day } });
    expect((await on("2026-07-01")).ok.trays).toEqual([
      expect.objectContaining({ id, verdict: "stop", missing: 5, items: 0, state: "planned" }),
    ]);
    expect((await on("2026-07-02")).ok.trays).toEqual([]);
    const today = (await it.practice.office.call("listTrays", {})).ok.trays;
    expect(today.length).toBeGreaterThan(0);
    expect(today.map((each) => each.appointmentAt.slice(0, 10))).toEqual(
      today.map(() => "2026-06-15"),
    );
  });
});

describe("a scan", () => {
  test("by code or by label puts a container on the tray and brings it to the room", async () => {
    const trayId = await emptyTray();
    const { first } = await cement();
    const { ok } = await scan(trayId, { barcodes: [first.code] });
    expect(ok.item).toMatchObject({ stepKeys: ["cement"], barcode: first.code });
    expect(ok.item).toMatchObject({ placedBy: "assistant", container: { id: first.id } });
    expect(ok.check).toMatchObject({ verdict: "clear", findings: [], mayStart: true });
    expect(await placeOf(first.id)).toBe("operatory");
    const tray = await read(trayId);
    expect(tray.state).toBe("setting");
    expect(tray.items).toEqual([ok.item]);
    expect(tray.check).toEqual(ok.check);

    const other = await cement();
    const otherTray = await emptyTray();
    const byLabel = (await scan(otherTray, { barcodes: [other.label] })).ok.item;
    expect(byLabel.container?.id).toBe(other.first.id);
    expect(byLabel.reading).toMatchObject({ scheme: "gs1", lot: other.lot });
  });

  test("of one label twice means the same container; its neighbour is scanned by its code", async () => {
    const product = await make.usualProduct("bonding-cement");
    const { label, containers } = await make.received(product, { quantity: 2 });
    const trayId = await emptyTray();
    const { container } = (await scan(trayId, { barcodes: [label] })).ok.item;
    expect((await scan(trayId, { barcodes: [label] })).problem).toBe("already-on-tray");
    const neighbour = containers.find(({ id }) => id !== container?.id)!;
    const { item } = (await scan(trayId, { barcodes: [neighbour.code] })).ok;
    expect(item.container?.id).toBe(neighbour.id);
  });

  test("of a container on this tray is refused, and only one of eight at once succeeds", async () => {
    const trayId = await emptyTray();
    const { first } = await cement();
    const answers = await Promise.all(
      Array.from({ length: 8 }, () => scan(trayId, { barcodes: [first.code] })),
    );
    const late = answers.filter(({ status }) => status !== 201);
    expect(late).toHaveLength(7);
    expect(new Set(late.map(({ problem }) => problem))).toEqual(new Set(["already-on-tray"]));
    expect((await read(trayId)).items).toHaveLength(1);
  });

  test("that reads nothing, or a code that nobody gave out, is refused and changes nothing", async () => {
    const trayId = await emptyTray();
    for (const barcode of ["]d20109520000001071", "???", makeContainerCode(4_000_000)]) {
      const answer = await scan(trayId, { barcodes: [barcode] });
      expect(answer.problem).toBe("label-unreadable");
      expect(answer.body).toMatchObject({ reading: { lot: null } });
    }
    expect((await read(trayId)).items).toEqual([]);
    const { first } = await cement();
    expect((await scan(newId(), { barcodes: [first.code] })).problem).toBe("not-found");
  });

  test("puts a container at the step that is named, even a wrong one: a finding says so", async () => {
    const trayId = await emptyTray();
    const { first } = await cement();
    const { ok } = await scan(trayId, { barcodes: [first.code], stepKey: "clean" });
    expect(ok.item.stepKeys).toEqual(["clean"]);
    const codes = ok.check.findings.map(({ code }) => code).sort();
    expect(codes).toEqual(["missing", "wrong-kind"]);
  });

  test("of the unknown and of the withdrawn is an answer, not an error", async () => {
    const trayId = await emptyTray();
    const label = gs1Label({ gtin: newGtin(), lot: "X", useBy: "2028-03-31" });
    const { ok } = await scan(trayId, { barcodes: [label] });
    expect(ok.item).toMatchObject({ productName: null, container: null, stepKeys: [] });
    expect(ok.check.verdict).toBe("stop");
  });

  test("once priming has started, or the tray is cleared, is refused", async () => {
    const { trayId, itemId } = await make.smallTray();
    await make.started(trayId);
    const { first } = await cement();
    const body = { barcodes: [first.code] };
    expect((await scan(trayId, body)).problem).toBe("tray-not-open");
    expect((await remove(trayId, itemId)).problem).toBe("tray-not-open");
    const cleared = await emptyTray();
    await clear(cleared);
    expect((await scan(cleared, body)).problem).toBe("tray-not-open");
    expect((await pass(cleared)).problem).toBe("tray-not-open");
    expect(await placeOf(first.id)).toBe("store");
  });
});

describe("taking off and clearing", () => {
  test("frees a container for another tray", async () => {
    const { trayId, itemId, container } = await make.smallTray();
    const { ok } = await remove(trayId, itemId);
    expect(ok.items).toEqual([]);
    expect((await remove(trayId, itemId)).problem).toBe("not-found");
    expect((await remove(trayId, newId())).problem).toBe("not-found");
    expect((await remove(newId(), itemId)).problem).toBe("not-found");
    const again = await scan(await emptyTray(), { barcodes: [container.code] });
    expect(again.ok.check.verdict).toBe("clear");
  });

  test("clears a tray, once, and books what is empty as used up", async () => {
    const { trayId, container } = await make.smallTray();
    const elsewhere = await cement();
    expect((await clear(trayId, [elsewhere.first.id])).problem).toBe("not-on-tray");
    expect((await read(trayId)).state).toBe("setting");
    const { ok } = await clear(trayId, [container.id, container.id]);
    expect(ok.state).toBe("cleared");
    expect(await placeOf(container.id)).toBe("used");
    expect((await clear(trayId)).problem).toBe("tray-not-open");
    expect((await clear(newId())).problem).toBe("not-found");
  });

  test("waits for the record to be signed", async () => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    const refused = await clear(trayId);
    expect(refused.problem).toBe("record-not-complete");
    expect(refused.body).toMatchObject({ recordId: record.id });
    await make.signed(record.id);
    expect((await clear(trayId)).ok.state).toBe("cleared");
  });
});

describe("a stop", () => {
  test("is passed by a dentist with a reason, which stays beside the finding", async () => {
    const trayId = await emptyTray();
    const { ok } = await pass(trayId);
    const [finding] = ok.check.findings;
    expect(finding).toMatchObject({ code: "missing", level: "stop" });
    expect(finding?.overridden).toEqual({
      by: "dentist",
      at: "2026-06-15T08:00:00.000Z",
      reason: "it stands here unscanned",
    });
    // The verdict stays what it is: passing a stop does not unsay it.
    expect(ok.check).toMatchObject({ verdict: "stop", mayStart: true });
    expect((await pass(trayId)).problem).toBe("already-overridden");
  });

  test("that is none, is elsewhere, or lacks a reason is not passed", async () => {
    const trayId = await emptyTray();
    expect((await pass(trayId, { code: "withdrawn" })).problem).toBe("not-overridable");
    expect((await pass(trayId, { subject: "bond" })).problem).toBe("not-overridable");
    expect((await pass(trayId, { reason: " no " })).problem).toBe("invalid-request");
    expect((await pass(newId())).problem).toBe("not-found");
    const product = await make.product("bonding-cement", { confirmed: false });
    const { item, check } = await make.scanned(trayId, (await make.received(product)).label);
    expect(check.findings).toMatchObject([{ code: "unconfirmed", level: "caution" }]);
    const caution = { code: "unconfirmed", subject: item.id };
    expect((await pass(trayId, caution)).problem).toBe("not-overridable");
  });

  test("passed once is passed for that container alone", async () => {
    const product = await make.product("bonding-cement");
    const { lot, containers } = await make.received(product, { quantity: 2 });
    const body = { reference: make.name("FSN"), scope: [{ productId: product.id, lot }] };
    await it.practice.office.call("openWithdrawal", { body });
    const trayId = await emptyTray();
    const { item } = await make.scanned(trayId, containers[0]!.code);
    const passed = (await pass(trayId, { code: "withdrawn", subject: item.id })).ok;
    expect(passed.check.mayStart).toBe(true);
    const { check } = await make.scanned(trayId, containers[1]!.code);
    expect(check.findings.map(({ code, overridden }) => [code, overridden !== null])).toEqual(
      expect.arrayContaining([
        ["withdrawn", true],
        ["withdrawn", false],
      ]),
    );
    expect(check.mayStart).toBe(false);
  });
});
