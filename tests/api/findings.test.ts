/**
 * Every finding of the check before priming as the API gives it: at the scan, and again when the
 * tray is read. The rules themselves are tested beside them in `libs/domain/checks`.
 */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { findingCodes, type FindingCode, type Verdict } from "#domain";
import { visitCases } from "./visit-cases.ts";
import { openApp, roleNames, type TestApp } from "../helpers/app.ts";
import { gs1Label, Maker, newGtin, type MadeProduct, type SealingSet } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
/** A set that alone makes a clear tray; each case changes one thing. */
let set: SealingSet;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  set = await make.sealingSet();
});
afterAll(() => it.close());

/** Twelve hours without a request end a session: everybody signs in again. */
async function wakeUpAt(instant: string): Promise<void> {
  it.clock.set(instant);
  for (const role of roleNames) await it.practice[role].signIn(role);
}

const move = (containerId: string, to: "quarantine" | "used", reason: "quarantined" | "used-up") =>
  it.practice.assistant.call("move", {
    body: {
      containerId,
      fromLocationId: make.places.store,
      toLocationId: make.places[to],
      reason,
    },
  });
const flowable = () => make.usualProduct("flowable");
const primer = (facts: Parameters<Maker["product"]>[1]) =>
  make.product("primer", { systemId: set.primer.product.systemId, ...facts });
const labelOf = (product: MadeProduct, lot: string, useBy: string) =>
  gs1Label({ gtin: product.gtin, lot, useBy });

interface Case {
  code: FindingCode;
  verdict: Verdict;
  /** In place of which part of the set; null beside all of them. */
  insteadOf: "primer" | "adhesive" | "flowable" | null;
  /** What is scanned; null leaves the place empty. */
  scanned: () => Promise<string | null>;
  appointmentAt?: string;
  /** What the patient reacts to. */
  allergies?: BodyOf<"changeAllergies">["allergies"];
  /** What the finding must hold. */
  holds: object;
  /** Other codes that cannot but come with it. */
  beside?: FindingCode[];
}

const cases: Case[] = [
  {
    code: "past-in-use-life",
    verdict: "stop",
    insteadOf: "primer",
    scanned: async () => {
      const product = await primer({ inUseLife: { count: 30, unit: "day" } });
      const { containers } = await make.received(product, { quantity: 2 });
      const given = { params: { containerId: containers[0]!.id }, body: { on: "2026-05-15" } };
      await it.practice.assistant.call("openContainer", given);
      return containers[0]!.code;
    },
    holds: {
      numbers: { openedOn: "2026-05-15", usableThrough: "2026-06-14", today: "2026-06-15" },
      remedy: { code: "discard", numbers: { insteadPlace: "Store" } },
    },
  },
  {
    code: "ends-before-appointment",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () =>
      (await make.received(await flowable(), { useBy: "2026-06-20" })).first.code,
    appointmentAt: "2026-06-21T09:00:00.000Z",
    holds: { numbers: { end: "2026-06-20", appointment: "2026-06-21" }, until: "2026-06-21" },
  },
  {
    code: "short-dated",
    verdict: "caution",
    insteadOf: "flowable",
    scanned: async () =>
      (await make.received(await flowable(), { useBy: "2026-07-14" })).first.code,
    holds: { numbers: { end: "2026-07-14", daysLeft: 29, limit: 30 } },
    beside: ["earlier-exists"],
  },
  {
    code: "withdrawn",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const product = await flowable();
      const { lot, first } = await make.received(product);
      const body = { reference: "FSN-1", scope: [{ productId: product.id, lot }] };
      await it.practice.office.call("openWithdrawal", { body });
      return first.code;
    },
    holds: { numbers: { references: "FSN-1" }, remedy: { code: "quarantine" } },
  },
  {
    code: "in-quarantine",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const { first } = await make.received(await flowable());
      await move(first.id, "quarantine", "quarantined");
      return first.code;
    },
    holds: { numbers: { place: "Quarantine" } },
  },
  {
    code: "not-available",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const { first } = await make.received(await flowable());
      await move(first.id, "used", "used-up");
      return first.code;
    },
    holds: { numbers: { reason: "empty" } },
  },
  {
    code: "not-available",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const { first } = await make.received(await flowable());
      await make.scanned((await make.tray({ chartNumber: "C-9", tooth: "24" })).id, first.code);
      return first.code;
    },
    holds: { numbers: { reason: "other-tray", tray: "C-9 / 24" } },
  },
  {
    code: "not-available",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => labelOf(await flowable(), "never-received", "2028-03-31"),
    holds: { numbers: { reason: "not-received" }, remedy: { code: "receive-first" } },
  },
  {
    code: "label-conflict",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const product = await flowable();
      const { lot } = await make.received(product, { useBy: "2028-03-31" });
      return labelOf(product, lot, "2028-04-30");
    },
    holds: { numbers: { reason: "use-by", scanned: "2028-04-30", stored: "2028-03-31" } },
    beside: ["earlier-exists"],
  },
  {
    code: "wrong-kind",
    verdict: "stop",
    insteadOf: null,
    scanned: async () => (await make.received(await make.usualProduct("composite"))).first.code,
    holds: { numbers: { reason: "no-step", kind: "composite" } },
  },
  {
    code: "missing",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => null,
    holds: { subject: { type: "step", stepKey: "coat" }, remedy: { code: "scan-missing" } },
  },
  {
    code: "unknown-product",
    verdict: "stop",
    insteadOf: null,
    scanned: async () => gs1Label({ gtin: newGtin(), lot: "X", useBy: "2028-03-31" }),
    holds: { numbers: { reason: "identifier" }, remedy: { code: "register-product" } },
  },
  {
    code: "unconfirmed",
    verdict: "caution",
    insteadOf: "flowable",
    scanned: async () =>
      (await make.received(await make.product("flowable", { confirmed: false }))).first.code,
    holds: { remedy: { code: "confirm-product" } },
  },
  {
    code: "wrong-solvent",
    verdict: "stop",
    insteadOf: "primer",
    scanned: async () => (await make.received(await primer({ solvents: ["acetone"] }))).first.code,
    holds: { numbers: { reason: "needed", solvent: "water", solvents: "acetone" } },
  },
  {
    code: "drying-too-short",
    verdict: "stop",
    insteadOf: "primer",
    scanned: async () => (await make.received(await primer({ airDrySeconds: 15 }))).first.code,
    holds: {
      numbers: { reason: "ifu", plannedSeconds: 10, neededSeconds: 15 },
      remedy: { code: "dry-longer" },
    },
  },
  {
    code: "application-too-short",
    verdict: "stop",
    insteadOf: "primer",
    scanned: async () => (await make.received(await primer({ applicationSeconds: 21 }))).first.code,
    holds: {
      numbers: { plannedSeconds: 20, neededSeconds: 21 },
      remedy: { code: "apply-longer" },
    },
  },
  {
    code: "single-use-reused",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const product = await make.product("flowable", { singleUse: true });
      const capsule = await make.received(product);
      const other = await make.fullTray({ ...set, flowable: { product, lot: capsule } });
      const record = await make.worked(await make.started(other.id));
      await make.signed(record.id);
      const given = { params: { trayId: other.id }, body: {} };
      expect((await it.practice.assistant.call("clearTray", given)).status).toBe(200);
      return capsule.first.code;
    },
    holds: { numbers: { usedOn: "2026-06-15" }, remedy: { code: "take-instead" } },
  },
  {
    code: "system-split",
    verdict: "stop",
    insteadOf: "adhesive",
    scanned: async () => {
      const system = { body: { name: make.name("Other system") } };
      const { id } = (await it.practice.office.call("addSystem", system)).ok;
      return (await make.received(await make.product("adhesive", { systemId: id }))).first.code;
    },
    holds: { numbers: { reason: "differ" }, remedy: { code: "pair-from-one-system" } },
  },
  {
    code: "strategy-conflict",
    verdict: "stop",
    insteadOf: "primer",
    scanned: async () =>
      (await make.received(await primer({ strategy: "etch-and-rinse" }))).first.code,
    holds: { numbers: { reason: "not-etched" } },
  },
  {
    code: "eugenol",
    verdict: "caution",
    insteadOf: null,
    scanned: async () => {
      const cement = await make.product("provisional-cement", { contents: ["eugenol"] });
      return (await make.received(cement)).first.code;
    },
    holds: { subject: { stepKey: "provisional" }, remedy: { code: "get-another" } },
  },
  {
    code: "allergy",
    verdict: "stop",
    insteadOf: "flowable",
    allergies: ["hema", "eugenol"],
    scanned: async () => {
      const resin = await make.product("flowable", { contents: ["hema", "udma"] });
      return (await make.received(resin)).first.code;
    },
    holds: { numbers: { contents: "hema" }, remedy: { code: "take-instead" } },
  },
  {
    code: "earlier-exists",
    verdict: "clear",
    insteadOf: "flowable",
    scanned: async () => {
      const product = await make.product("flowable");
      await make.received(product, { useBy: "2027-01-31" });
      return (await make.received(product, { useBy: "2028-01-31" })).first.code;
    },
    holds: { level: "info", numbers: { insteadEnd: "2027-01-31", insteadPlace: "Store" } },
  },
  // Last, since it lets time pass.
  {
    code: "past-use-by",
    verdict: "stop",
    insteadOf: "flowable",
    scanned: async () => {
      const { first } = await make.received(await make.product("flowable"), {
        useBy: "2026-06-16",
      });
      await wakeUpAt("2026-06-17T08:00:00.000Z");
      return first.code;
    },
    appointmentAt: "2026-06-17T09:00:00.000Z",
    holds: { numbers: { useBy: "2026-06-16", today: "2026-06-17", daysPast: 1 } },
  },
];

test("a whole and good set is clear, with nothing to say", async () => {
  const tray = await make.fullTray(set);
  expect(tray.check).toMatchObject({ verdict: "clear", findings: [], mayStart: true });
  const given = { params: { trayId: tray.id }, body: {} };
  await it.practice.assistant.call("clearTray", given);
});

test.each(cases)("$code is said, and the verdict is $verdict: $holds", async (one) => {
  const { code, verdict, insteadOf, holds, appointmentAt, beside = [] } = one;
  const barcode = await one.scanned();
  const { id, patient } = await make.tray(appointmentAt === undefined ? {} : { appointmentAt });
  const params = { trayId: id };
  if (one.allergies) {
    const given = { params: { patientId: patient.id }, body: { allergies: one.allergies } };
    expect((await it.practice.assistant.call("changeAllergies", given)).status).toBe(200);
  }
  for (const [kind, { lot }] of Object.entries(set)) {
    if (kind !== insteadOf) await make.scanned(id, lot.first.code);
  }
  const scanned = barcode === null ? null : await make.scanned(id, barcode);
  const { check } = (await it.practice.dentist.call("getTray", { params })).ok;
  if (scanned) expect(scanned.check).toEqual(check);

  const others = check.findings.filter((finding) => finding.code !== code);
  expect(others.map((finding) => finding.code).filter((each) => !beside.includes(each))).toEqual(
    [],
  );
  const found = check.findings.filter((finding) => finding.code === code);
  expect(found).toHaveLength(1);
  expect(found[0]).toMatchObject(holds);
  expect(check.verdict).toBe(verdict);
  expect(check.mayStart).toBe(verdict !== "stop");
  if (scanned && code !== "system-split") expect(found[0]?.subject.itemId).toBe(scanned.item.id);
  expect((await it.practice.assistant.call("clearTray", { params, body: {} })).status).toBe(200);
});

test("every code that the checks know has been seen, here or in a visit of its own", () => {
  const seen = [...cases, ...visitCases].map(({ code }) => code);
  expect(new Set(seen)).toEqual(new Set(findingCodes));
});
