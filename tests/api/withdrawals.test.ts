/** Where is this lot, who has it, and the case that it becomes. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { QueryOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker, newGtin, type MadeProduct } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const trace = (query: QueryOf<"traceStock">) => it.practice.office.call("traceStock", { query });
const open = (productId: string, lot: string, reference = make.name("FSN")) =>
  it.practice.office.call("openWithdrawal", { body: { reference, scope: [{ productId, lot }] } });
const get = (withdrawalId: string) =>
  it.practice.dentist.call("getWithdrawal", { params: { withdrawalId } });
const segregate = (withdrawalId: string) =>
  it.practice.assistant.call("segregate", { params: { withdrawalId } });
const close = (withdrawalId: string) =>
  it.practice.office.call("closeWithdrawal", {
    params: { withdrawalId },
    body: { summary: "all returned" },
  });

/** A record of one tooth with one container of cement; `worked` uses it. */
async function cemented(code: string, told: { chartNumber: string; tooth: string }) {
  const { id } = await make.tray({ technique: "bond-restoration", ...told });
  await make.scanned(id, code);
  return make.worked(await make.started(id));
}
/** A record whose cement was passed as missing, and then noted as not scanned. */
async function unscanned(product: MadeProduct, told: { locationId?: string } = {}) {
  const { id: trayId } = await make.tray({ technique: "bond-restoration", ...told });
  const body = { code: "missing", subject: "cement", reason: "it stands here unscanned" };
  await it.practice.dentist.call("overrideFinding", { params: { trayId }, body });
  const record = await make.started(trayId);
  const event = {
    kind: "not-scanned" as const,
    stepKey: "cement",
    productId: product.id,
    reason: "label torn off",
  };
  const params = { recordId: record.id };
  await it.practice.assistant.call("addRecordEvent", { params, body: event });
  return record;
}
async function moveToRoom(containerId: string, toLocationId = make.places.operatory) {
  const body = { containerId, fromLocationId: make.places.store, toLocationId };
  await it.practice.assistant.call("move", { body: { ...body, reason: "moved" } });
  await it.practice.assistant.call("openContainer", { params: { containerId }, body: {} });
}

describe("the trace of a lot", () => {
  test("tells what is here, what is planned, which teeth have it, and its balance", async () => {
    const product = await make.product("bonding-cement");
    const { lot, lotId, containers } = await make.received(product, { quantity: 5 });
    const [first, second, third, fourth] = containers;
    const one = await cemented(first!.code, { chartNumber: "T-1", tooth: "11" });
    const clearing = { params: { trayId: one.trayId }, body: { usedUp: [first!.id] } };
    await make.signed(one.id);
    await it.practice.assistant.call("clearTray", clearing);
    const two = await cemented(second!.code, { chartNumber: "T-2", tooth: "24" });
    const planned = await make.tray({ technique: "bond-restoration", chartNumber: "T-3" });
    await make.scanned(planned.id, third!.code);
    const away = { containerId: fourth!.id, fromLocationId: make.places.store };
    const discarded = { ...away, toLocationId: make.places.discarded };
    await it.practice.office.call("move", { body: { ...discarded, reason: "discarded" } });

    const { ok } = await trace({ lot });
    expect(ok.asked).toEqual({ lot, identifier: null, container: null });
    expect(ok.lots).toHaveLength(1);
    const [found] = ok.lots;
    expect(found).toMatchObject({ lotId, lot, withdrawn: false, patients: 2 });
    expect(found?.identifiers).toEqual([product.gtin]);
    expect(found?.here.map(({ location, quantity }) => [location.name, quantity])).toEqual([
      ["Operatory 1", 2],
      ["Store", 1],
    ]);
    expect(
      found?.planned.map(({ chartNumber, containerCode }) => [chartNumber, containerCode]),
    ).toEqual(expect.arrayContaining([["T-3", third!.code]]));
    const teeth = found?.teeth.map(({ certainty, chartNumber, tooth, recordId, recordState }) => [
      certainty,
      chartNumber,
      tooth,
      recordId,
      recordState,
    ]);
    expect(new Set(teeth)).toEqual(
      new Set([
        ["certain", "T-1", "11", one.id, "signed"],
        ["certain", "T-2", "24", two.id, "draft"],
      ]),
    );
    expect(found?.balance).toEqual({
      received: 5,
      onHand: 3,
      quarantined: 0,
      usedUp: 1,
      discarded: 1,
      returned: 0,
      lost: 0,
      countDifference: 0,
      unaccounted: 0,
      balanced: true,
    });
  });

  test("is asked by device identifier, by label and by a container's code, too", async () => {
    const product = await make.product("bonding-cement");
    const first = await make.received(product);
    const second = await make.received(product);
    const lots = async (query: QueryOf<"traceStock">) =>
      new Set((await trace(query)).ok.lots.map(({ lotId }) => lotId));
    expect(await lots({ identifier: product.gtin })).toEqual(new Set([first.lotId, second.lotId]));
    // The same number as its bar code prints it, with 13 digits.
    expect(await lots({ identifier: product.gtin.slice(1) })).toEqual(
      new Set([first.lotId, second.lotId]),
    );
    expect(await lots({ identifier: first.label })).toEqual(new Set([first.lotId]));
    expect(await lots({ identifier: product.gtin, lot: second.lot })).toEqual(
      new Set([second.lotId]),
    );
    expect(await lots({ container: second.first.code })).toEqual(new Set([second.lotId]));
    expect(await lots({ lot: "no such lot" })).toEqual(new Set());
    expect((await trace({ identifier: newGtin() })).problem).toBe("not-found");
    expect((await trace({ container: "C111111" })).problem).toBe("not-found");
    expect((await trace({})).problem).toBe("invalid-request");
  });

  test("never takes one lot for another that looks like it, but shows both", async () => {
    const product = await make.product("bonding-cement");
    const base = make.name("A");
    const zero = await make.received(product, { lot: `${base}-1180` });
    const letter = await make.received(product, { lot: `${base}-118O` });
    const { ok } = await trace({ lot: zero.lot });
    expect(ok.lots.map(({ lotId }) => lotId)).toEqual([zero.lotId]);
    expect(ok.lookAlikes).toEqual([
      { lotId: letter.lotId, lot: letter.lot, productName: product.name },
    ]);
    const other = await make.received(await make.product("primer"), { lot: zero.lot });
    const { lots } = (await trace({ lot: zero.lot, identifier: product.gtin })).ok;
    expect(lots.map(({ lotId }) => lotId)).toEqual([zero.lotId]);
    expect((await trace({ lot: zero.lot })).ok.lots.map(({ lotId }) => lotId)).toContain(
      other.lotId,
    );
  });

  test("infers a lot where the scan was missed and one bottle was open in that room", async () => {
    const product = await make.product("bonding-cement");
    const only = await make.received(product);
    await moveToRoom(only.first.id);
    const record = await unscanned(product);
    const [found] = (await trace({ lot: only.lot })).ok.lots;
    expect(found?.teeth).toMatchObject([
      { certainty: "inferred", recordId: record.id, containerCode: null, stepKey: "cement" },
    ]);
    expect(found?.patients).toBe(1);
  });

  test("calls each lot possible where several were open, and none from another room", async () => {
    const product = await make.product("bonding-cement");
    const open = [await make.received(product), await make.received(product)];
    for (const { first } of open) await moveToRoom(first.id);
    const sealed = await make.received(product);
    const body = { name: make.name("Room"), kind: "operatory" as const };
    const { id } = (await it.practice.office.call("addLocation", { body })).ok;
    const elsewhere = await make.received(product);
    await moveToRoom(elsewhere.first.id, id);
    const record = await unscanned(product);
    for (const { lot } of open) {
      const [found] = (await trace({ lot })).ok.lots;
      expect(found?.teeth).toMatchObject([{ certainty: "possible", recordId: record.id }]);
    }
    for (const { lot } of [sealed, elsewhere]) {
      expect((await trace({ lot })).ok.lots[0]?.teeth).toEqual([]);
    }
  });
});

describe("the trace of a patient", () => {
  const ask = (query: QueryOf<"tracePatient">) =>
    it.practice.dentist.call("tracePatient", { query });

  test("tells tooth by tooth which lots it has", async () => {
    const chartNumber = make.name("P");
    const product = await make.product("bonding-cement");
    const lots = [await make.received(product), await make.received(product)];
    await cemented(lots[0]!.first.code, { chartNumber, tooth: "11" });
    it.clock.set("2026-06-15T08:30:00.000Z");
    await cemented(lots[1]!.first.code, { chartNumber, tooth: "21" });
    const { ok } = await ask({ chart: chartNumber });
    expect(
      ok.teeth.map(({ tooth, materials }) => [tooth, materials.map(({ lot }) => lot)]),
    ).toEqual([
      ["21", [lots[1]!.lot]],
      ["11", [lots[0]!.lot]],
    ]);
    expect(ok.teeth[0]?.materials[0]).toMatchObject({
      stepKey: "cement",
      productName: product.name,
      useBy: "2028-03-31",
      containerCode: lots[1]!.first.code,
    });
    expect((await ask({ chart: chartNumber, tooth: "11" })).ok.teeth).toHaveLength(1);
    expect((await ask({ chart: chartNumber, tooth: "48" })).ok.teeth).toEqual([]);
    const scanned = await trace({ lot: lots[0]!.lot });
    expect(scanned.ok.lots[0]?.teeth).toMatchObject([{ chartNumber, tooth: "11" }]);
  });

  test("knows a patient without teeth from nobody", async () => {
    const { chartNumber } = await make.tray();
    expect((await ask({ chart: chartNumber })).ok.teeth).toEqual([]);
    expect((await ask({ chart: make.name("nobody") })).problem).toBe("not-found");
  });
});

describe("a withdrawal", () => {
  test("stops every tray that holds the lot, from the moment it is entered", async () => {
    const product = await make.product("bonding-cement");
    const { lot, containers } = await make.received(product, { quantity: 2 });
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    expect((await make.scanned(trayId, containers[0]!.code)).check.verdict).toBe("clear");
    const { ok } = await open(product.id, lot, "FSN 2026-7");
    expect(ok).toMatchObject({ reference: "FSN 2026-7", state: "tracing", receivedBy: "office" });
    expect(ok.scope).toEqual([{ productId: product.id, productName: product.name, lot }]);
    expect(ok.trace).toMatchObject([{ lot, withdrawn: true, planned: [{ trayId }] }]);
    const { check } = (await it.practice.dentist.call("getTray", { params: { trayId } })).ok;
    expect(check).toMatchObject({ verdict: "stop", findings: [{ code: "withdrawn" }] });
    expect((await get(ok.id)).ok).toEqual(ok);
    const { withdrawals } = (await it.practice.dentist.call("listWithdrawals")).ok;
    const { trace: _trace, ...head } = ok;
    expect(withdrawals).toContainEqual(head);
    const again = await open(product.id, lot, "FSN 2026-7");
    expect(again.problem).toBe("name-taken");
  });

  test("of a whole product covers every lot of it, those received later, too", async () => {
    const product = await make.product("bonding-cement");
    const lots = [await make.received(product), await make.received(product)];
    const { ok } = await open(product.id, "");
    expect(new Set(ok.trace.map(({ lotId }) => lotId))).toEqual(
      new Set(lots.map(({ lotId }) => lotId)),
    );
    const unknown = await open(newId(), "");
    expect(unknown.problem).toBe("not-found");
  });

  test("is segregated: all that is here goes to quarantine, and the books stay balanced", async () => {
    const product = await make.product("bonding-cement");
    const { lot, containers } = await make.received(product, { quantity: 3 });
    await make.received(product);
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    await make.scanned(trayId, containers[0]!.code);
    const { id } = (await open(product.id, lot)).ok;
    const { ok } = await segregate(id);
    expect(ok.moved).toBe(3);
    expect(ok.withdrawal.state).toBe("segregated");
    const [traced] = ok.withdrawal.trace;
    expect(traced?.here.map(({ location, quantity }) => [location.kind, quantity])).toEqual([
      ["quarantine", 3],
    ]);
    expect(traced?.balance).toMatchObject({
      received: 3,
      onHand: 0,
      quarantined: 3,
      balanced: true,
    });
    expect((await segregate(id)).ok.moved).toBe(0);
    expect((await segregate(newId())).problem).toBe("not-found");
  });

  test("is closed once, with a summary, and then covers nothing any more", async () => {
    const product = await make.product("bonding-cement");
    const { lot, first } = await make.received(product);
    const { id } = (await open(product.id, lot)).ok;
    const { ok } = await close(id);
    expect(ok).toMatchObject({ state: "closed", summary: "all returned" });
    expect(ok.closedAt).not.toBeNull();
    expect((await close(id)).problem).toBe("withdrawal-closed");
    expect((await segregate(id)).problem).toBe("withdrawal-closed");
    expect((await close(newId())).problem).toBe("not-found");
    expect((await get(newId())).problem).toBe("not-found");
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    expect((await make.scanned(trayId, first.code)).check.verdict).toBe("clear");
  });
});
