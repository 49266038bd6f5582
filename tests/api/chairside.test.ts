/** What is written at the chair: clocks, drops, cures, coats, and what went otherwise. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
/** A light of its own operatory: lamp B, IADR 2013, IAGS abstract 684, table 1. */
let light: { id: string; locationId: string };
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  const room = { body: { name: make.name("Room"), kind: "operatory" as const } };
  const { id: locationId } = (await it.practice.office.call("addLocation", room)).ok;
  const modes = [
    { name: "Standard" },
    { name: "Soft", phases: [{ seconds: 10, fromPercent: 0, toPercent: 100 }] },
  ];
  const body = { name: make.name("Lamp"), locationId, modes };
  const { id } = (await it.practice.office.call("addLight", { body })).ok;
  const readings = [
    { mode: "Standard", irradianceMwCm2: 1226 },
    { mode: "Standard", irradianceMwCm2: 806, distanceTenthMm: 40 },
    { mode: "Soft", irradianceMwCm2: 1000 },
  ];
  for (const reading of readings) {
    const given = { params: { lightId: id }, body: reading };
    expect((await it.practice.assistant.call("addLightReading", given)).status).toBe(201);
  }
  light = { id, locationId };
});
afterAll(() => it.close());

const step = {
  key: "coat",
  name: "Resin coat",
  accepts: ["flowable" as const],
  applicationSeconds: 5,
  cureSeconds: 20,
  lightDistanceTenthMm: 40,
  thicknessTenthMm: { min: 3, max: 8 },
};
const optional = { key: "note", name: "Look", required: false };

/** A record whose coat needs 16 J/cm2, and the container that stands there. */
async function begun(facts: Parameters<Maker["product"]>[1] = {}) {
  const body = { name: make.name("T"), visit: "sealing" as const, steps: [step, optional] };
  const technique = (await it.practice.dentist.call("addTechnique", { body })).ok;
  const product = await make.product("flowable", { radiantExposureJCm2: 16, ...facts });
  const { first } = await make.received(product);
  const tray = await make.tray({ techniqueId: technique.id, locationId: light.locationId });
  await make.scanned(tray.id, first.code);
  const record = await make.started(tray.id);
  return { recordId: record.id, containerId: first.id, record };
}
const write = (recordId: string, body: BodyOf<"addRecordEvent">) =>
  it.practice.assistant.call("addRecordEvent", { params: { recordId }, body });
const stepOf = async (recordId: string, key = "coat") => {
  const { ok } = await it.practice.dentist.call("getRecord", { params: { recordId } });
  return ok.steps.find((one) => one.key === key)!;
};

describe("a step at the chair", () => {
  test("tells every tablet which part runs since when, until it is done", async () => {
    const { recordId } = await begun();
    expect((await stepOf(recordId)).running).toBeNull();
    const at = "2026-06-15T07:59:50.000Z";
    await write(recordId, { kind: "step-started", stepKey: "coat", occurredAt: at });
    const started = { kind: "part-started" as const, stepKey: "coat", occurredAt: at };
    await write(recordId, { ...started, part: "application", seconds: 5 });
    expect((await stepOf(recordId)).running).toEqual({
      part: "application",
      seconds: 5,
      startedAt: at,
    });
    await write(recordId, { kind: "part-started", stepKey: "coat", part: "cure", seconds: 20 });
    expect((await stepOf(recordId)).running?.part).toBe("cure");
    await write(recordId, { kind: "step-done", stepKey: "coat", seconds: 25 });
    expect(await stepOf(recordId)).toMatchObject({ running: null, done: true });
  });

  test("begins with its first part: what stands there is used from then on, and once", async () => {
    const { recordId, containerId } = await begun();
    const at = "2026-06-15T07:59:50.000Z";
    const part = { kind: "part-started" as const, stepKey: "coat", occurredAt: at };
    await write(recordId, { ...part, part: "application", seconds: 5 });
    await write(recordId, { kind: "part-started", stepKey: "coat", part: "cure", seconds: 20 });
    const { ok } = await it.practice.dentist.call("getRecord", { params: { recordId } });
    expect(ok.steps[0]?.startedAt).toBe(at);
    expect(ok.materials).toMatchObject([{ stepKey: "coat", containerId, usedAt: at }]);
    const kinds = ok.events.map(({ kind }) => kind);
    expect(kinds).toEqual(["step-started", "part-started", "part-started"]);
  });

  test("says beforehand what the operatory's light would give, and what would do", async () => {
    const { record } = await begun();
    // 806 mW/cm2 at 4 mm for 20 s are 16.12 J/cm2: H = E t, FDI policy statement, 2021.
    expect(record.steps[0]?.light).toEqual({
      distanceTenthMm: 40,
      irradianceMwCm2: 806,
      known: "measured",
      neededJCm2: 16,
      givenJCm2: 16.12,
      enoughSeconds: 20,
    });
  });

  test("keeps each cure with the exposure by the light's own table", async () => {
    const { recordId } = await begun();
    const cure = { kind: "cure" as const, stepKey: "coat", seconds: 14, lightId: light.id };
    await write(recordId, cure);
    await write(recordId, { ...cure, distanceTenthMm: 20 });
    await write(recordId, { ...cure, distanceTenthMm: 80 });
    await write(recordId, { ...cure, lightId: null });
    const { cures } = await stepOf(recordId);
    expect(cures.map((one) => [one.irradianceMwCm2, one.known, one.givenJCm2])).toEqual([
      [1226, "measured", 17.16],
      [1016, "between", 14.22],
      [806, "estimate", 11.28],
      [null, "unknown", null],
    ]);
    expect(cures[0]).toMatchObject({ seconds: 14, mode: "Standard", neededJCm2: 16 });
  });

  test("integrates a mode whose output rises, and goes on as it ended", async () => {
    const { recordId } = await begun();
    const cure = { kind: "cure" as const, stepKey: "coat", lightId: light.id, mode: "Soft" };
    await write(recordId, { ...cure, seconds: 10 });
    await write(recordId, { ...cure, seconds: 15 });
    // The integral of E over t: half of 1000 mW/cm2 over 10 s, then all of it.
    const { cures } = await stepOf(recordId);
    expect(cures.map(({ givenJCm2 }) => givenJCm2)).toEqual([5, 10]);
  });

  test("starts a drop's clock at dispensing, from a container of this tray alone", async () => {
    const { recordId, containerId } = await begun({ dropLifeSeconds: 60 });
    const occurredAt = "2026-06-15T07:59:30.000Z";
    const drop = { kind: "dispensed" as const, stepKey: "coat", containerId, occurredAt };
    await write(recordId, drop);
    expect(await stepOf(recordId)).toMatchObject({ dispensedAt: occurredAt, dropLifeSeconds: 60 });
    const other = await begun();
    const strange = await write(recordId, { ...drop, containerId: other.containerId });
    expect(strange.problem).toBe("not-on-tray");
  });

  test("takes a thickness also after it is done, the latest counts, until it is signed", async () => {
    const { recordId } = await begun();
    await write(recordId, { kind: "step-started", stepKey: "coat" });
    await write(recordId, { kind: "step-done", stepKey: "coat" });
    expect((await stepOf(recordId)).thickness).toEqual({ min: 3, max: 8, measured: null });
    const measure = (tenthMm: number) =>
      write(recordId, { kind: "thickness", stepKey: "coat", tenthMm });
    await measure(9);
    expect((await measure(5)).status).toBe(201);
    expect((await stepOf(recordId)).thickness?.measured).toBe(5);
    await make.signed(recordId);
    expect((await measure(6)).problem).toBe("record-signed");
  });

  test("is left out only where it may be", async () => {
    const { recordId } = await begun();
    const leave = (stepKey: string) => write(recordId, { kind: "step-left-out", stepKey });
    expect((await leave("coat")).problem).toBe("step-required");
    expect((await leave("note")).status).toBe(201);
    expect((await stepOf(recordId, "note")).leftOut).toBe(true);
    expect((await leave("gone")).problem).toBe("not-found");
  });

  test("notes a deviation by its name alone, or in words where it is none of those", async () => {
    const { recordId } = await begun();
    const deviate = (told: object) =>
      write(recordId, { kind: "deviation", stepKey: "coat", ...told });
    expect((await deviate({ what: "saliva" })).status).toBe(201);
    expect((await deviate({ text: "the tip touched the lip" })).status).toBe(201);
    expect((await deviate({})).problem).toBe("invalid-request");
    const { events } = (await it.practice.dentist.call("getRecord", { params: { recordId } })).ok;
    expect(events.map(({ facts }) => facts)).toEqual([
      { what: "saliva", text: "" },
      { what: "other", text: "the tip touched the lip" },
    ]);
  });

  test("knows no light and no mode that the practice has not", async () => {
    const { recordId } = await begun();
    const cure = { kind: "cure" as const, stepKey: "coat", seconds: 10 };
    const strange = "01999999-9999-7999-8999-999999999999";
    expect((await write(recordId, { ...cure, lightId: strange })).problem).toBe("not-found");
    const mode = await write(recordId, { ...cure, lightId: light.id, mode: "Turbo" });
    expect(mode.problem).toBe("not-found");
  });
});

describe("a container that runs out on a visit of two teeth", () => {
  test("leaves both lots on every tooth on which its step is running, and on no other", async () => {
    const product = await make.product("flowable");
    const [old, fresh] = [await make.received(product), await make.received(product)];
    const body = { name: make.name("T"), visit: "sealing" as const, steps: [step] };
    const technique = (await it.practice.dentist.call("addTechnique", { body })).ok;
    const teeth = ["35", "36", "37"].map((tooth) => ({ tooth }));
    const tray = await make.tray({ techniqueId: technique.id, teeth });
    await make.scanned(tray.id, old.first.code);
    const given = { params: { trayId: tray.id }, body: {} };
    const { records } = (await it.practice.dentist.call("startRecord", given)).ok;
    const [first, second, third] = records;
    for (const record of [first, second]) {
      await write(record!.id, { kind: "step-started", stepKey: "coat" });
    }
    const swapped = await it.practice.assistant.call("swapContainer", {
      params: { recordId: first!.id },
      body: {
        stepKey: "coat",
        barcodes: [fresh.first.code],
        replaces: old.first.id,
        emptied: true,
      },
    });
    expect(swapped.status).toBe(201);
    const lotsOf = async (recordId: string) => {
      const { ok } = await it.practice.dentist.call("getRecord", { params: { recordId } });
      return ok.materials.map(({ lot }) => lot);
    };
    expect(await lotsOf(first!.id)).toEqual([old.lot, fresh.lot]);
    expect(await lotsOf(second!.id)).toEqual([old.lot, fresh.lot]);
    expect(await lotsOf(third!.id)).toEqual([]);
    await write(third!.id, { kind: "step-started", stepKey: "coat" });
    expect(await lotsOf(third!.id)).toEqual([fresh.lot]);
  });
});
