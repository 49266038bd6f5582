/** The second visit: a bonding record builds on a seal, and what later versions of both mean. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker } from "../helpers/make.ts";
import { beginAt, bondTooth, sealTooth } from "../helpers/seals.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const list = async (chart: string) =>
  (await it.practice.assistant.call("listWaiting", { query: { chart } })).ok;
const idsOf = async (chart: string) => (await list(chart)).seals.map(({ sealId }) => sealId);
const change = (sealId: string, body: BodyOf<"changeWaiting">) =>
  it.practice.office.call("changeWaiting", { params: { sealId }, body });

// First in the file: other tests move records in ways that a signature does not bear.
test("the link to a seal is under the signature: whoever changes it is found", async () => {
  const { chartNumber } = await sealTooth(make);
  const { id } = await bondTooth(make, { chartNumber });
  const verify = async () => (await it.practice.owner.call("verifyAudit")).ok;
  expect(await verify()).toMatchObject({ ok: true, records: { faults: 0 } });
  await asOwner(
    it.database,
    `begin; set local session_replication_role = 'replica';
     update record set seal_id = null where id = '${id}'; commit`,
  );
  expect(await verify()).toMatchObject({ ok: false, records: { faults: 1 } });
});

describe("a bonding record", () => {
  test("builds on the one seal that waits by itself, and takes the tooth off the list", async () => {
    const sealing = await sealTooth(make);
    await beginAt(it, sealing.id, "2026-06-01T08:00:00Z");
    const { chartNumber } = sealing;
    const { trayId } = await make.smallTray({ chartNumber });
    const seals = async () =>
      (await it.practice.assistant.call("getTraySeals", { params: { trayId } })).ok.teeth;
    expect(await seals()).toMatchObject([
      { tooth: "16", linked: null, seals: [{ sealId: sealing.id, days: 14, waits: true }] },
    ]);
    const given = { params: { trayId }, body: {} };
    const { records } = (await it.practice.dentist.call("startRecord", given)).ok;
    const seal = { id: sealing.id, signedAt: sealing.signed!.at, days: 14 };
    expect(records[0]).toMatchObject({ seal, bonding: null });
    expect(await seals()).toMatchObject([{ linked: sealing.id }]);
    // Begun is not bonded.
    expect(await idsOf(chartNumber)).toEqual([sealing.id]);
    await make.worked(records[0]!);
    const bonding = await make.signed(records[0]!.id);
    expect(bonding.seal).toEqual(seal);
    expect(await idsOf(chartNumber)).toEqual([]);
    const read = { params: { recordId: sealing.id } };
    const again = (await it.practice.office.call("getRecord", read)).ok;
    expect(again).toMatchObject({
      seal: null,
      bonding: { id: bonding.id, signedAt: bonding.signed!.at, days: 14 },
    });
  });

  test("starts with a word of the dentist where no seal waits", async () => {
    const { trayId } = await make.smallTray();
    const start = (body: BodyOf<"startRecord">) =>
      it.practice.dentist.call("startRecord", { params: { trayId }, body });
    const refused = await start({});
    expect(refused.problem).toBe("seal-not-chosen");
    expect(refused.body).toMatchObject({
      detail: expect.stringMatching(/^No seal of tooth 16 waits\. Choose .* there is none\.$/),
      teeth: [{ tooth: "16", seals: [] }],
    });
    const { records } = (await start({ seals: [{ tooth: "16", sealId: null }] })).ok;
    expect(records[0]).toMatchObject({ seal: null, bonding: null });
  });

  test("starts with a choice where several wait, tooth by tooth", async () => {
    const chartNumber = make.name("C");
    const plan = { chartNumber };
    const first = await sealTooth(make, { plan });
    const second = await sealTooth(make, { plan });
    const clear = await sealTooth(make, { plan, tooth: { tooth: "17" } });
    const { trayId } = await make.smallTray({
      chartNumber,
      teeth: [{ tooth: "16" }, { tooth: "17" }, { tooth: "18" }],
    });
    const start = (seals: BodyOf<"startRecord">["seals"]) =>
      it.practice.dentist.call("startRecord", { params: { trayId }, body: { seals } });
    const none = { tooth: "18", sealId: null };
    const refused = await start([none]);
    expect(refused.problem).toBe("seal-not-chosen");
    expect(refused.body).toMatchObject({
      detail: expect.stringContaining("Tooth 16 has several: of 2026-06-15, 2026-06-15."),
      teeth: [{ tooth: "16", seals: expect.arrayContaining([first.id, second.id]) }],
    });
    const { records } = (await start([none, { tooth: "16", sealId: second.id }])).ok;
    expect(records.map(({ tooth, seal }) => [tooth, seal?.id ?? null])).toEqual([
      ["16", second.id],
      ["17", clear.id],
      ["18", null],
    ]);
  });

  test("builds on no seal of another tooth, patient or visit", async () => {
    const mine = await sealTooth(make);
    const others = await sealTooth(make);
    const { trayId } = await make.smallTray({ chartNumber: mine.chartNumber });
    const start = (seals: BodyOf<"startRecord">["seals"], tray = trayId) =>
      it.practice.dentist.call("startRecord", { params: { trayId: tray }, body: { seals } });
    for (const sealId of [others.id, newId()]) {
      expect((await start([{ tooth: "16", sealId }])).problem).toBe("not-found");
    }
    const elsewhere = await start([{ tooth: "17", sealId: null }]);
    expect(elsewhere.problem).toBe("invalid-request");
    expect(elsewhere.body).toMatchObject({ errors: [{ path: "/body/seals/0/tooth" }] });
    const one = { tooth: "16", sealId: mine.id };
    expect((await start([one, one])).body).toMatchObject({
      errors: [{ path: "/body/seals/1/tooth" }],
    });
    const sealing = await make.fullTray(await make.sealingSet());
    expect((await start([one], sealing.id)).problem).toBe("invalid-request");
    const params = { trayId: sealing.id };
    expect((await it.practice.assistant.call("getTraySeals", { params })).ok.teeth).toEqual([]);
    expect((await start([one])).ok.records[0]!.seal?.id).toBe(mine.id);
  });

  test("is offered a seal taken off the list, and builds on it when the dentist says so", async () => {
    const { id, chartNumber } = await sealTooth(make);
    await change(id, { waits: false, reason: "bonded-elsewhere" });
    const { trayId } = await make.smallTray({ chartNumber });
    const start = (body: BodyOf<"startRecord">) =>
      it.practice.dentist.call("startRecord", { params: { trayId }, body });
    expect((await start({})).problem).toBe("seal-not-chosen");
    const { teeth } = (await it.practice.dentist.call("getTraySeals", { params: { trayId } })).ok;
    expect(teeth).toMatchObject([{ seals: [{ sealId: id, off: true, waits: false }] }]);
    const { records } = (await start({ seals: [{ tooth: "16", sealId: id }] })).ok;
    expect(records[0]!.seal?.id).toBe(id);
  });
});

describe("versions of a record", () => {
  const amend = (recordId: string, body: Partial<BodyOf<"amendRecord">>) =>
    it.practice.dentist.call("amendRecord", {
      params: { recordId },
      body: { amends: "correction", reason: "asked for by the test", password, ...body },
    });
  const add = async (recordId: string) =>
    (await amend(recordId, { amends: "addition", add: [{ kind: "note", text: "all well" }] })).ok;
  const read = async (recordId: string) =>
    (await it.practice.office.call("getRecord", { params: { recordId } })).ok;

  test("of a seal count as one: what was built on the first holds for the newest", async () => {
    const sealing = await sealTooth(make);
    const { chartNumber } = sealing;
    await beginAt(it, sealing.id, "2026-06-01T08:00:00Z");
    const second = await add(sealing.id);
    expect((await list(chartNumber)).seals).toMatchObject([{ sealId: second.id, days: 14 }]);
    const seals = [{ tooth: "16", sealId: sealing.id }];
    const bonding = await bondTooth(make, { chartNumber, seals });
    expect(bonding.seal?.id).toBe(second.id);
    const third = await add(second.id);
    expect(third.bonding).toMatchObject({ id: bonding.id, days: 14 });
    expect(await idsOf(chartNumber)).toEqual([]);
    expect((await read(bonding.id)).seal).toMatchObject({ id: third.id, days: 14 });
    for (const { id } of [sealing, second]) {
      expect((await read(id)).bonding).toMatchObject({ id: bonding.id, days: 14 });
    }
    // The bonding was built on a version that no longer stands, and is amended all the same.
    const later = await add(bonding.id);
    expect(later.seal).toMatchObject({ id: third.id, days: 14 });
    expect((await read(third.id)).bonding?.id).toBe(later.id);
    expect(await idsOf(chartNumber)).toEqual([]);
  });

  test("of a seal say what the surface needs: as the newest has it", async () => {
    const cement = await make.product("provisional-cement");
    const products = [cement, await make.usualProduct("flowable")];
    const sealing = await sealTooth(make, { products });
    const codes = async () =>
      (await list(sealing.chartNumber)).seals.flatMap(({ needs }) => needs.map((one) => one.code));
    const added = await add(sealing.id);
    expect(await codes()).toEqual(expect.arrayContaining(["eugenol-free", "roughen-coat"]));
    const materials = added.materials.map(({ id }) => id);
    await amend(added.id, { leaveOut: { materials } });
    expect(await codes()).not.toContain("eugenol-free");
    expect(await codes()).toContain("roughen-thin");
  });

  test("of a bonding: a correction without the seal, or with another, brings the tooth back", async () => {
    const chartNumber = make.name("C");
    const plan = { chartNumber };
    const first = await sealTooth(make, { plan });
    const second = await sealTooth(make, { plan });
    const seals = [{ tooth: "16", sealId: first.id }];
    const bonding = await bondTooth(make, { chartNumber, seals });
    expect(await idsOf(chartNumber)).toEqual([second.id]);
    const { ok: moved } = await amend(bonding.id, { sealId: second.id });
    expect(moved.seal?.id).toBe(second.id);
    expect(await idsOf(chartNumber)).toEqual([first.id]);
    const { ok: loose } = await amend(moved.id, { sealId: null });
    expect(loose.seal).toBeNull();
    expect((await idsOf(chartNumber)).sort()).toEqual([first.id, second.id].sort());
    expect((await read(second.id)).bonding).toBeNull();
    const { ok: back } = await amend(loose.id, { sealId: first.id });
    expect(back.seal?.id).toBe(first.id);
    expect(await idsOf(chartNumber)).toEqual([second.id]);
  });

  test("of a bonding: another seal is a correction, of that very tooth, and no sealing has one", async () => {
    const sealing = await sealTooth(make);
    const { chartNumber } = sealing;
    const other = await sealTooth(make);
    const bonding = await bondTooth(make, { chartNumber });
    const told = await amend(bonding.id, { amends: "addition", sealId: null });
    expect(told.body).toMatchObject({ errors: [{ path: "/body/sealId" }] });
    for (const sealId of [other.id, bonding.id, newId()]) {
      expect((await amend(bonding.id, { sealId })).problem).toBe("not-found");
    }
    const none = await amend(sealing.id, { sealId: null });
    expect(none.body).toMatchObject({ errors: [{ path: "/body/sealId" }] });
    expect((await read(bonding.id)).state).toBe("signed");
  });
});
