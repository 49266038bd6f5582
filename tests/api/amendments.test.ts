/** Signed records live on: additions and corrections as later versions. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

type RecordView = AnswerOf<"getRecord">;
const reason = "Another bottle stood on the tray.";

async function newSigned(): Promise<RecordView> {
  const { trayId } = await make.smallTray();
  const { id } = await make.worked(await make.started(trayId));
  const body = { kind: "deviation", stepKey: "cement", what: "saliva", text: "wiped" } as const;
  await it.practice.assistant.call("addRecordEvent", { params: { recordId: id }, body });
  return make.signed(id);
}
const amend = (recordId: string, body: Partial<BodyOf<"amendRecord">>, key?: string) =>
  it.practice.dentist.call("amendRecord", {
    params: { recordId },
    body: { amends: "addition", reason, password, ...body },
    ...(key === undefined ? {} : { key }),
  });
const read = async (recordId: string): Promise<RecordView> =>
  (await it.practice.office.call("getRecord", { params: { recordId } })).ok;
const newCement = async () => make.received(await make.usualProduct("bonding-cement"));
const note = { kind: "note" as const, text: "The patient called: no pain." };

describe("an addition", () => {
  test("is a version of its own with all that stood in the one before", async () => {
    const first = await newSigned();
    it.clock.set("2026-06-15T12:00:00.000Z");
    const { ok: second } = await amend(first.id, { add: [note] });
    it.clock.set("2026-06-15T08:00:00.000Z");
    expect(second).toMatchObject({
      state: "signed",
      version: 2,
      amends: "addition",
      amendReason: reason,
      startedAt: first.startedAt,
      startedBy: first.startedBy,
      signed: { by: "dentist", at: "2026-06-15T12:00:00.000Z" },
    });
    const bare = ({ materials }: RecordView) =>
      materials.map(({ id: _own, ...material }) => material);
    expect(bare(second)).toEqual(bare(first));
    expect(second.events.slice(0, -1)).toEqual(first.events);
    expect(second.events.at(-1)).toMatchObject({
      kind: "note",
      facts: { text: note.text },
      occurredAt: "2026-06-15T12:00:00.000Z",
      recordedAt: "2026-06-15T12:00:00.000Z",
    });
    const { versions: _now, ...before } = await read(first.id);
    const { versions: _then, ...sealed } = first;
    expect(before).toEqual({ ...sealed, state: "superseded" });
  });

  test("is told by every version", async () => {
    const first = await newSigned();
    const { ok: second } = await amend(first.id, { add: [note] });
    const { ok: third } = await amend(second.id, { add: [{ ...note, text: "And again." }] });
    for (const { id } of [first, second, third]) {
      const { versions } = await read(id);
      expect(versions.map((one) => [one.id, one.version, one.state, one.reason])).toEqual([
        [first.id, 1, "superseded", null],
        [second.id, 2, "superseded", reason],
        [third.id, 3, "signed", reason],
      ]);
    }
  });

  test("leaves nothing out, and adds something", async () => {
    const { id, materials } = await newSigned();
    const leaveOut = { materials: [materials[0]!.id] };
    expect((await amend(id, { add: [note], leaveOut })).problem).toBe("invalid-request");
    expect((await amend(id, {})).problem).toBe("invalid-request");
    expect((await read(id)).state).toBe("signed");
  });
});

describe("a correction", () => {
  test("puts what was really used in the place of what is declared wrong", async () => {
    const first = await newSigned();
    const [wrong] = first.materials;
    const right = await newCement();
    const { ok } = await amend(first.id, {
      amends: "correction",
      leaveOut: { materials: [wrong!.id] },
      add: [{ kind: "used", stepKey: "cement", containerId: right.first.id }],
    });
    expect(ok.materials).toMatchObject([
      { stepKey: "cement", lot: right.lot, containerId: right.first.id, usedAt: first.startedAt },
    ]);
    const teethOf = async (lot: string) => {
      const { lots } = (await it.practice.office.call("traceStock", { query: { lot } })).ok;
      return lots.flatMap(({ teeth }) => teeth.map(({ recordId }) => recordId));
    };
    expect(await teethOf(wrong!.lot!)).toEqual([]);
    expect(await teethOf(right.lot)).toEqual([ok.id]);
    // The old version still says what it said.
    expect((await read(first.id)).materials).toEqual(first.materials);
  });

  test("can declare an entry wrong, and nothing that the work itself told", async () => {
    const first = await newSigned();
    const sequenceOf = (kind: string) => first.events.find((one) => one.kind === kind)!.sequence;
    const leave = (events: number[]) =>
      amend(first.id, { amends: "correction", leaveOut: { events } });
    expect((await leave([sequenceOf("step-done")])).problem).toBe("invalid-request");
    expect((await leave([999])).problem).toBe("invalid-request");
    const { ok } = await leave([sequenceOf("deviation")]);
    expect(ok.events.map(({ kind }) => kind)).not.toContain("deviation");
    expect(ok.events.map(({ sequence }) => sequence)).toEqual(ok.events.map((_, n) => n + 1));
  });

  test("leaves no step without its material", async () => {
    const { id, materials } = await newSigned();
    const leaveOut = { materials: [materials[0]!.id] };
    const refused = await amend(id, { amends: "correction", leaveOut });
    expect(refused.problem).toBe("record-not-complete");
    expect(refused.body).toMatchObject({ steps: ["cement"] });
    const product = await make.usualProduct("bonding-cement");
    const unscanned = { kind: "not-scanned" as const, stepKey: "cement", productId: product.id };
    const { ok } = await amend(id, {
      amends: "correction",
      leaveOut,
      add: [{ ...unscanned, reason: "label torn" }],
    });
    expect(ok.materials).toMatchObject([{ lot: null, notScannedReason: "label torn" }]);
    // With the material goes the entry that told of it.
    const { first, lot } = await newCement();
    const { ok: found } = await amend(ok.id, {
      amends: "correction",
      leaveOut: { materials: [ok.materials[0]!.id] },
      add: [{ kind: "used", stepKey: "cement", containerId: first.id }],
    });
    expect(found.materials).toMatchObject([{ lot }]);
    expect(found.events.map(({ kind }) => kind)).not.toContain("not-scanned");
  });

  test("names what there is", async () => {
    const { id, materials } = await newSigned();
    const used = { kind: "used" as const, stepKey: "cement", containerId: newId() };
    const ask = async (body: Partial<BodyOf<"amendRecord">>) =>
      (await amend(id, { amends: "correction", ...body })).problem;
    expect(await ask({ add: [used] })).toBe("not-found");
    expect(await ask({ add: [{ ...used, stepKey: "polish" }] })).toBe("not-found");
    expect(await ask({ leaveOut: { materials: [newId()] } })).toBe("invalid-request");
    const again = { ...used, containerId: materials[0]!.containerId! };
    expect(await ask({ add: [again] })).toBe("invalid-request");
    const other = { ...used, containerId: (await newCement()).first.id };
    expect(await ask({ add: [other, other] })).toBe("invalid-request");
    expect((await read(id)).versions).toHaveLength(1);
  });
});

describe("an amendment", () => {
  test("counts once: in a trace, in a chart, in the list and in what is left", async () => {
    const product = await make.product("bonding-cement", { usesPerContainer: 10 });
    const { first, lot } = await make.received(product);
    const tray = await make.tray({ technique: "bond-restoration" });
    await make.scanned(tray.id, first.code);
    const record = await make.worked(await make.started(tray.id));
    await make.signed(record.id);
    const { ok } = await amend(record.id, { add: [note] });
    const { office } = it.practice;
    const { lots } = (await office.call("traceStock", { query: { lot } })).ok;
    expect(lots[0]?.teeth.map(({ recordId }) => recordId)).toEqual([ok.id]);
    const chart = tray.chartNumber;
    const patient = (await office.call("tracePatient", { query: { chart } })).ok;
    expect(JSON.stringify(patient)).not.toContain(record.id);
    const { records } = (await office.call("listRecords", { query: { chart } })).ok;
    expect(records.map(({ id }) => id)).toEqual([ok.id]);
    const given = { params: { productId: product.id } };
    expect((await office.call("getProductStock", given)).ok).toMatchObject({ usesLeft: 9 });
    const again = (await office.call("getTray", { params: { trayId: tray.id } })).ok;
    expect(again.records).toMatchObject([{ id: ok.id, state: "signed" }]);
  });

  test("is of a signed record, the newest one", async () => {
    const { trayId } = await make.smallTray();
    const draft = await make.started(trayId);
    expect((await amend(draft.id, { add: [note] })).problem).toBe("record-not-signed");
    const first = await newSigned();
    const { ok: second } = await amend(first.id, { add: [note] });
    const refused = await amend(first.id, { add: [note] });
    expect(refused.problem).toBe("record-superseded");
    expect(refused.body).toMatchObject({ newest: second.id });
    expect((await amend(newId(), { add: [note] })).problem).toBe("not-found");
  });

  test("is made once where two are sent at the same moment", async () => {
    const { id } = await newSigned();
    const both = await Promise.all([
      amend(id, { add: [note] }),
      amend(id, { add: [{ ...note, text: "The other." }] }),
    ]);
    const problems = both.map(({ status }) => status).sort((a, b) => a - b);
    expect(problems).toEqual([201, 409]);
    expect((await read(id)).versions).toHaveLength(2);
  });

  test("sent again with its key gives the same version", async () => {
    const { id } = await newSigned();
    const key = newId();
    const { ok } = await amend(id, { add: [note] }, key);
    expect((await amend(id, { add: [note] }, key)).ok.id).toBe(ok.id);
    expect((await read(id)).versions).toHaveLength(2);
  });

  test("is signed with the dentist's own word or PIN, and says why", async () => {
    const { id } = await newSigned();
    const wrong = await amend(id, { add: [note], password: "another long one" });
    expect(wrong.problem).toBe("wrong-credentials");
    const add = [note];
    expect((await amend(id, { add, pin: "1357" })).problem).toBe("invalid-request");
    expect((await amend(id, { add, reason: "no" })).problem).toBe("invalid-request");
    expect((await read(id)).versions).toHaveLength(1);
  });

  test("leaves a chain that verifies", async () => {
    const { id } = await newSigned();
    await amend(id, { add: [note] });
    const { ok } = await it.practice.owner.call("verifyAudit");
    expect(ok).toMatchObject({ ok: true, records: { faults: 0 } });
  });
});
