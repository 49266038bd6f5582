/** A signed record is shown as it was signed, whatever is renamed or learnt afterwards. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { readPdfText } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
let first: AnswerOf<"getRecord">;
let oldName: string;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  const set = await make.sealingSet();
  const tray = await make.fullTray(set);
  const draft = await make.worked(await make.started(tray.id));
  first = await make.signed(draft.id);
  const { id: productId, version, name } = set.primer.product;
  oldName = name;
  const body = { version, name: "Another name", kind: "primer" as const, airDrySeconds: 99 };
  const given = { params: { productId }, body };
  expect((await it.practice.office.call("changeProduct", given)).status).toBe(200);
});
afterAll(() => it.close());

const read = async (recordId: string) =>
  (await it.practice.office.call("getRecord", { params: { recordId } })).ok;
const airDryOf = ({ steps }: AnswerOf<"getRecord">) =>
  steps.find(({ key }) => key === "prime")?.airDrySeconds;

describe("a signed record", () => {
  test("stays as it was signed when a product is renamed and gets other figures", async () => {
    expect(await read(first.id)).toEqual(first);
  });

  test("is printed as it was signed", async () => {
    const given = { params: { recordId: first.id }, query: { language: "en" as const } };
    const { ok } = await it.practice.office.call("getRecordDocument", given);
    const text = await readPdfText(new Uint8Array(await (ok as unknown as Blob).arrayBuffer()));
    expect(text).toContain(`${oldName}, lot`);
    expect(text).toContain("air-dry 10 s (technique)");
    expect(text).not.toMatch(/Another name|99 s/);
  });

  test("keeps in a later version what was planned at the visit", async () => {
    const add = [{ kind: "note" as const, text: "The patient called: no pain." }];
    const { ok } = await it.practice.dentist.call("amendRecord", {
      params: { recordId: first.id },
      body: { amends: "addition", reason: "Told by phone.", add, password },
    });
    expect(airDryOf(ok)).toEqual(airDryOf(first));
    const { versions: _now, ...before } = await read(first.id);
    const { versions: _then, ...sealed } = first;
    expect(before).toEqual({ ...sealed, state: "superseded" });
  });

  test("shows what its hash was made of", async () => {
    const { ok } = await it.practice.owner.call("verifyAudit");
    expect(ok.records).toEqual({ signed: 2, faults: 0 });
  });
});

describe("a stop that a dentist passes during the work", () => {
  test("is on the record and on paper for good, with its reason", async () => {
    const product = await make.usualProduct("bonding-cement");
    const { first: container, lot } = await make.received(product);
    const teeth = [{ tooth: "16", restoration: "onlay" as const, surfaces: "MOD" }];
    const { id: trayId } = await make.tray({ technique: "bond-restoration", teeth });
    const { item } = await make.scanned(trayId, container.code);
    const draft = await make.started(trayId);
    expect(draft).toMatchObject({ passed: [], surfaces: "MOD", restoration: "onlay" });
    const notice = { reference: "FSN-1", scope: [{ productId: product.id, lot }] };
    await it.practice.office.call("openWithdrawal", { body: notice });
    const reason = "the patient cannot wait";
    const passing = { code: "withdrawn" as const, subject: item.id, reason };
    const pass = { params: { trayId }, body: passing };
    expect((await it.practice.dentist.call("overrideFinding", pass)).status).toBe(201);
    await make.worked(draft);
    const signed = await make.signed(draft.id);
    const overridden = { by: "dentist", at: "2026-06-15T08:00:00.000Z", reason };
    expect(signed.passed).toMatchObject([{ code: "withdrawn", level: "stop", overridden }]);
    const add = [{ kind: "note" as const, text: "The patient called: no pain." }];
    const { ok } = await it.practice.dentist.call("amendRecord", {
      params: { recordId: signed.id },
      body: { amends: "addition", reason: "Told by phone.", add, password },
    });
    expect(ok.passed).toEqual(signed.passed);
    const given = { params: { recordId: ok.id }, query: { language: "en" as const } };
    const paper = await it.practice.office.call("getRecordDocument", given);
    const bytes = new Uint8Array(await (paper.ok as unknown as Blob).arrayBuffer());
    const text = await readPdfText(bytes);
    expect(text).toMatch(/Stops passed during the work.*Passed by dentist, .*cannot wait/);
    expect(text).toMatch(/Restoration onlay/);
    expect(text).toMatch(/Version before 1 · .*dentist Version 2, an addition: Told by phone\./);
  });

  test("is told once where it was passed before priming began", async () => {
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    const body = { code: "missing" as const, subject: "cement", reason: "from the next room" };
    await it.practice.dentist.call("overrideFinding", { params: { trayId }, body });
    expect(await make.started(trayId)).toMatchObject({
      passed: [],
      startCheck: { findings: [{ overridden: { reason: body.reason } }] },
    });
  });
});
