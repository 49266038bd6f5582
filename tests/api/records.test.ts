/** What is done to a tooth: started, worked step by step, swapped, signed, and then for ever. */
import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, password, Person, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const start = async (trayId: string) =>
  it.practice.dentist.call("startRecord", await make.starting(trayId));
const write = (recordId: string, body: BodyOf<"addRecordEvent">) =>
  it.practice.assistant.call("addRecordEvent", { params: { recordId }, body });
const swap = (recordId: string, body: BodyOf<"swapContainer">) =>
  it.practice.assistant.call("swapContainer", { params: { recordId }, body });
const sign = (recordId: string, body: BodyOf<"signRecord"> = { password }) =>
  it.practice.dentist.call("signRecord", { params: { recordId }, body });
const read = async (recordId: string) =>
  (await it.practice.office.call("getRecord", { params: { recordId } })).ok;
const cement = async () => make.received(await make.usualProduct("bonding-cement"));
async function smallRecord() {
  const small = await make.smallTray();
  const record = await make.started(small.trayId);
  return { ...small, record, recordId: record.id };
}
async function withdraw(lot: string) {
  const { id } = await make.usualProduct("bonding-cement");
  const body = { reference: make.name("FSN"), scope: [{ productId: id, lot }] };
  expect((await it.practice.office.call("openWithdrawal", { body })).status).toBe(201);
}

describe("priming", () => {
  test("starts with the check of that moment, and plans the times of each step", async () => {
    const tray = await make.fullTray(
      await make.sealingSet({ primer: { airDrySeconds: 10 }, adhesive: { cureSeconds: 25 } }),
    );
    const record = await make.started(tray.id);
    expect(record).toMatchObject({
      trayId: tray.id,
      chartNumber: tray.chartNumber,
      tooth: "16",
      visit: "sealing",
      state: "draft",
      version: 1,
      startedBy: "dentist",
      signed: null,
      startCheck: { verdict: "clear" },
      check: { verdict: "clear" },
    });
    const prime = record.steps.find(({ key }) => key === "prime");
    expect(prime).toMatchObject({
      applicationSeconds: { seconds: 20, from: "technique" },
      airDrySeconds: { seconds: 10, from: "technique" },
      containers: [{ code: tray.items[0]!.container!.code }],
      done: false,
      startedAt: null,
    });
    const bond = record.steps.find(({ key }) => key === "bond");
    expect(bond).toMatchObject({ cureSeconds: { seconds: 25, from: "ifu" } });
    expect(record.materials).toEqual([]);
    const { state, records } = (
      await it.practice.assistant.call("getTray", { params: { trayId: tray.id } })
    ).ok;
    expect(state).toBe("in-use");
    expect(records).toEqual([{ id: record.id, tooth: "16", state: "draft" }]);
  });

  test("does not start while a stop is left, and does once a dentist has passed it", async () => {
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    const refused = await start(trayId);
    expect(refused.problem).toBe("verdict-stops");
    expect(refused.body).toMatchObject({ findings: [{ code: "missing", level: "stop" }] });
    const body = { code: "missing", subject: "cement", reason: "comes from the next room" };
    await it.practice.dentist.call("overrideFinding", { params: { trayId }, body });
    const record = (await start(trayId)).ok.records[0]!;
    expect(record.startCheck).toMatchObject({
      verdict: "stop",
      mayStart: true,
      findings: [{ overridden: { by: "dentist", reason: body.reason } }],
    });
  });

  test("starts once for a tray, and not for one that is cleared or unknown", async () => {
    const { trayId } = await make.smallTray();
    const answers = await Promise.all([1, 2, 3, 4].map(() => start(trayId)));
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(1);
    const late = answers.filter(({ status }) => status !== 201);
    expect(late.map(({ problem }) => problem)).toEqual(Array(3).fill("tray-not-open"));
    const cleared = (await make.smallTray()).trayId;
    await it.practice.assistant.call("clearTray", { params: { trayId: cleared }, body: {} });
    expect((await start(cleared)).problem).toBe("tray-not-open");
    expect((await start(newId())).problem).toBe("not-found");
  });
});

describe("a step", () => {
  test("that is started uses its containers: noted with their lot, and opened by it", async () => {
    const { recordId, container } = await smallRecord();
    const { ok } = await write(recordId, { kind: "step-started", stepKey: "cement" });
    expect(ok.materials).toEqual([
      expect.objectContaining({
        stepKey: "cement",
        containerId: container.id,
        containerCode: container.code,
        useBy: "2028-03-31",
        notScannedReason: null,
        usedAt: "2026-06-15T08:00:00.000Z",
        person: "assistant",
      }),
    ]);
    const params = { containerId: container.id };
    const story = (await it.practice.office.call("getContainer", { params })).ok;
    expect(story.container).toMatchObject({ openedOn: "2026-06-15", state: "open" });
    const twice = (await write(recordId, { kind: "step-started", stepKey: "cement" })).ok;
    expect(twice.materials).toHaveLength(1);
    const done = (await write(recordId, { kind: "step-done", stepKey: "cement", seconds: 41 })).ok;
    expect(done.steps.find(({ key }) => key === "cement")).toMatchObject({
      done: true,
      startedAt: "2026-06-15T08:00:00.000Z",
    });
    expect(done.events.map(({ sequence, kind, facts }) => [sequence, kind, facts])).toEqual([
      [1, "step-started", {}],
      [2, "step-started", {}],
      [3, "step-done", { seconds: 41 }],
    ]);
  });

  test("tells what was not scanned and why, what deviates, and what is worth a note", async () => {
    const { recordId } = await smallRecord();
    const occurredAt = "2026-06-15T07:58:00.000Z";
    const productId = (await make.usualProduct("surface-cleaner")).id;
    const reason = "label torn off";
    await write(recordId, { kind: "not-scanned", stepKey: "clean", productId, reason, occurredAt });
    await write(recordId, { kind: "deviation", stepKey: "bond", text: "cured twice" });
    const { ok } = await write(recordId, { kind: "note", text: "patient coughed" });
    expect(ok.materials).toMatchObject([
      {
        stepKey: "clean",
        lot: null,
        containerId: null,
        notScannedReason: reason,
        usedAt: occurredAt,
      },
    ]);
    expect(ok.events.map(({ kind, stepKey, occurredAt: at }) => [kind, stepKey, at])).toEqual([
      ["not-scanned", "clean", occurredAt],
      ["deviation", "bond", "2026-06-15T08:00:00.000Z"],
      ["note", null, "2026-06-15T08:00:00.000Z"],
    ]);
  });

  test("that does not exist, of a record or product that does not, is not found", async () => {
    const { recordId } = await smallRecord();
    const reason = "label torn off";
    expect((await write(newId(), { kind: "note", text: "x" })).problem).toBe("not-found");
    expect((await write(recordId, { kind: "step-done", stepKey: "polish" })).problem).toBe(
      "not-found",
    );
    const unknown = { kind: "not-scanned" as const, stepKey: "cement", productId: newId(), reason };
    expect((await write(recordId, unknown)).problem).toBe("not-found");
    const none = { kind: "unheard-of" as "note", text: "x" };
    expect((await write(recordId, none)).problem).toBe("invalid-request");
  });

  test("does not start with a container that was withdrawn since priming started", async () => {
    const lot = await cement();
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    const { item } = await make.scanned(trayId, lot.first.code);
    const { id } = await make.started(trayId);
    await withdraw(lot.lot);
    const refused = await write(id, { kind: "step-started", stepKey: "cement" });
    expect(refused.problem).toBe("verdict-stops");
    expect(refused.body).toMatchObject({ findings: [{ code: "withdrawn" }] });
    expect((await read(id)).materials).toEqual([]);
    // A step that does not use it goes on.
    expect((await write(id, { kind: "step-started", stepKey: "isolate" })).status).toBe(201);
    const body = { code: "withdrawn", subject: item.id, reason: "the patient cannot wait" };
    await it.practice.dentist.call("overrideFinding", { params: { trayId }, body });
    expect((await write(id, { kind: "step-started", stepKey: "cement" })).status).toBe(201);
  });
});

describe("a swap", () => {
  test("in the middle of a step leaves both lots on it, and books the empty one", async () => {
    const { recordId, container } = await smallRecord();
    await write(recordId, { kind: "step-started", stepKey: "cement" });
    const next = await cement();
    const body = {
      stepKey: "cement",
      barcodes: [next.first.code],
      replaces: container.id,
      emptied: true,
    };
    const { ok } = await swap(recordId, body);
    expect(ok.materials.map(({ containerId }) => containerId)).toEqual([
      container.id,
      next.first.id,
    ]);
    expect(ok.steps.find(({ key }) => key === "cement")?.containers).toMatchObject([
      { id: next.first.id },
    ]);
    const params = { containerId: container.id };
    const old = (await it.practice.office.call("getContainer", { params })).ok.container;
    expect(old.state).toBe("empty");
  });

  test("before a step starts changes what it will use", async () => {
    const { recordId, container } = await smallRecord();
    const next = await cement();
    await swap(recordId, {
      stepKey: "cement",
      barcodes: [next.first.code],
      replaces: container.id,
    });
    const { ok } = await write(recordId, { kind: "step-started", stepKey: "cement" });
    expect(ok.materials.map(({ containerId }) => containerId)).toEqual([next.first.id]);
  });

  test("needs a container that can be read, is not there yet, and one that is there", async () => {
    const { recordId, container } = await smallRecord();
    const next = await cement();
    const barcodes = [next.first.code];
    const stepKey = "cement";
    const ask = async (body: Partial<BodyOf<"swapContainer">>, id = recordId) =>
      (await swap(id, { stepKey, barcodes, ...body })).problem;
    expect(await ask({ barcodes: ["???"] })).toBe("label-unreadable");
    expect(await ask({ barcodes: [container.code] })).toBe("already-on-tray");
    const itself = { barcodes: [container.code], replaces: container.id };
    expect(await ask(itself)).toBe("already-on-tray");
    const elsewhere = await cement();
    expect(await ask({ replaces: elsewhere.first.id })).toBe("not-on-tray");
    expect(await ask({ stepKey: "polish" })).toBe("not-found");
    expect(await ask({}, newId())).toBe("not-found");
    expect((await read(recordId)).events).toEqual([]);
  });

  test("to a stop in the middle of a step is refused as a whole", async () => {
    const { recordId, container } = await smallRecord();
    await write(recordId, { kind: "step-started", stepKey: "cement" });
    const bad = await cement();
    await withdraw(bad.lot);
    const body = {
      stepKey: "cement",
      barcodes: [bad.first.code],
      replaces: container.id,
      emptied: true,
    };
    expect((await swap(recordId, body)).problem).toBe("verdict-stops");
    const { materials, steps } = await read(recordId);
    expect(materials.map(({ containerId }) => containerId)).toEqual([container.id]);
    expect(steps.find(({ key }) => key === "cement")?.containers).toMatchObject([
      { id: container.id },
    ]);
  });
});

describe("a signature", () => {
  test("waits for every required step and its material", async () => {
    const { recordId } = await smallRecord();
    const none = await sign(recordId);
    expect(none.problem).toBe("record-not-complete");
    expect(none.body).toMatchObject({ steps: ["isolate", "cement"] });
    await write(recordId, { kind: "step-done", stepKey: "isolate" });
    await write(recordId, { kind: "step-done", stepKey: "cement" });
    expect((await sign(recordId)).body).toMatchObject({ steps: ["cement"] });
    await write(recordId, { kind: "step-started", stepKey: "cement" });
    expect((await sign(recordId)).status).toBe(200);
  });

  test("stands for what was written: its hash is that of the kept text", async () => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    const { ok } = await sign(record.id);
    expect(ok).toMatchObject({ state: "signed", check: null });
    expect(ok.signed).toMatchObject({ by: "dentist", at: "2026-06-15T08:00:00.000Z" });
    const [row] = await asOwner<{ canonical: string }>(
      it.database,
      "select canonical from record where id = $1",
      [record.id],
    );
    expect(createHash("sha256").update(row!.canonical).digest("hex")).toBe(ok.signed?.hash);
    const sealed = JSON.parse(row!.canonical);
    expect(sealed).toMatchObject({ id: record.id, chartNumber: record.chartNumber, tooth: "16" });
    expect(sealed.materials).toEqual(ok.materials);
    expect(sealed.signedBy).toBe(it.practice.dentist.id);
    const { entries } = (await it.practice.owner.call("listAudit", { query: { limit: 1 } })).ok;
    expect(entries).toMatchObject([
      { action: "record-signed", subject: `record:${record.id}`, person: "dentist" },
    ]);
    expect(entries[0]?.change).toBe(`{"hash":"${ok.signed?.hash}"}`);
    expect(await read(record.id)).toEqual(ok);
  });

  test("ends all writing", async () => {
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    await sign(record.id);
    const before = await read(record.id);
    expect((await sign(record.id)).problem).toBe("record-signed");
    expect((await write(record.id, { kind: "note", text: "x" })).problem).toBe("record-signed");
    const { first } = await cement();
    const body = { stepKey: "cement", barcodes: [first.code] };
    expect((await swap(record.id, body)).problem).toBe("record-signed");
    expect(await read(record.id)).toEqual(before);
  });

  test("by PIN or by password, not by both, by neither, or by a wrong one", async () => {
    const { trayId } = await make.smallTray();
    const { id } = await make.worked(await make.started(trayId));
    expect((await sign(id, {})).problem).toBe("invalid-request");
    expect((await sign(id, { password, pin: "1357" })).problem).toBe("invalid-request");
    expect((await sign(id, { pin: "1357" })).problem).toBe("wrong-credentials");
    await it.practice.dentist.call("setPin", { body: { password, pin: "1357" } });
    expect((await sign(id, { pin: "1358" })).problem).toBe("wrong-credentials");
    expect((await sign(id, { pin: "1357" })).ok.state).toBe("signed");
    expect((await sign(newId(), { pin: "1357" })).problem).toBe("not-found");
  });

  test("is locked after ten wrong PINs", async () => {
    const body = {
      displayName: "Second",
      signInName: "second",
      password,
      roles: ["dentist" as const],
    };
    const { id } = (await it.practice.owner.call("addPerson", { body })).ok;
    const second = new Person(it.app, "dentist", id);
    await second.signIn("second");
    const { trayId } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    const params = { recordId: record.id };
    for (let n = 0; n < 10; n += 1) {
      const wrong = await second.call("signRecord", { params, body: { pin: "0000" } });
      expect(wrong.problem).toBe("wrong-credentials");
    }
    const locked = await second.call("signRecord", { params, body: { password } });
    expect(locked.problem).toBe("locked-out");
    expect((await read(record.id)).state).toBe("draft");
  });
});

describe("records", () => {
  test("are listed newest first, page by page, and filtered", async () => {
    const chartNumber = make.name("C");
    const made: string[] = [];
    for (const tooth of ["11", "12", "13"]) {
      const plan = { technique: "bond-restoration", chartNumber, tooth };
      const { id } = await make.tray(plan);
      await make.scanned(id, (await cement()).first.code);
      made.unshift((await make.worked(await make.started(id))).id);
    }
    const list = async (query: object) =>
      (await it.practice.office.call("listRecords", { query })).ok;
    const first = await list({ chart: chartNumber, limit: 2 });
    const second = await list({ chart: chartNumber, limit: 2, after: first.next });
    expect([...first.records, ...second.records].map(({ id }) => id)).toEqual(made);
    expect(second.next).toBeNull();
    const [line] = (await list({ chart: chartNumber, tooth: "12" })).records;
    expect(line).toMatchObject({ id: made[1], tooth: "12", materials: 1, signedAt: null });
    const { lot } = (await read(made[0]!)).materials[0]!;
    expect((await list({ lot })).records.map(({ id }) => id)).toEqual([made[0]]);
    expect((await list({ chart: chartNumber, on: "2026-06-14" })).records).toEqual([]);
    expect((await list({ chart: chartNumber, on: "2026-06-15" })).records).toHaveLength(3);
  });

  test("one that does not exist is not found", async () => {
    const params = { recordId: newId() };
    expect((await it.practice.office.call("getRecord", { params })).problem).toBe("not-found");
  });
});
