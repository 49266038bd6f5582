/** Curing lights: their modes, their readings, and how they stand against their own first one. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { openApp, roleNames, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const add = async (over: Partial<BodyOf<"addLight">> = {}) =>
  (
    await it.practice.office.call("addLight", {
      body: { name: make.name("Light"), modes: [{ name: "Standard" }], ...over },
    })
  ).ok;
const read = (lightId: string, body: Partial<BodyOf<"addLightReading">>) =>
  it.practice.assistant.call("addLightReading", {
    params: { lightId },
    body: { mode: "Standard", ...body },
  });

describe("a curing light", () => {
  test("is unread at first, then stands by its readings at the tip", async () => {
    const light = await add();
    expect(light).toMatchObject({ state: "unread", readOn: null, lossPercent: null });
    await read(light.id, { irradianceMwCm2: 1200, readAt: "2026-05-01T08:00:00.000Z" });
    // 1200 to 940 mW/cm2 are 21.7 %: arithmetic, against the light's own first reading.
    const faded = (await read(light.id, { irradianceMwCm2: 940 })).ok;
    expect(faded).toMatchObject({ state: "good", readOn: "2026-06-15", dueOn: "2026-07-15" });
    expect(faded.lossPercent).toBe(21.7);
    expect((await read(light.id, { irradianceMwCm2: 399 })).ok.state).toBe("weak");
  });

  test("keeps the latest reading at each distance, by mode", async () => {
    const modes = [{ name: "Standard" }, { name: "High" }];
    const { id } = await add({ modes });
    // Lamp B, centre sensor: IADR 2013, IAGS abstract 684, table 1.
    await read(id, { irradianceMwCm2: 2700, readAt: "2026-06-01T08:00:00.000Z" });
    await read(id, { irradianceMwCm2: 2758 });
    await read(id, { irradianceMwCm2: 806, distanceTenthMm: 40 });
    const light = (await read(id, { mode: "High", irradianceMwCm2: 3000 })).ok;
    expect(light.modes.map(({ table }) => table.map((one) => one.irradianceMwCm2))).toEqual([
      [2758, 806],
      [3000],
    ]);
  });

  test("reckons the exitance from a power and the tip's diameter", async () => {
    // 500 mW and 8 mm are 994.7 mW/cm2: ISO 10650, radiant power by optical cross-section.
    const { id } = await add({ tipTenthMm: 80 });
    expect((await read(id, { powerMw: 500 })).ok.readings[0]?.irradianceMwCm2).toBe(994);
    const bare = await add();
    expect((await read(bare.id, { powerMw: 500 })).problem).toBe("invalid-request");
    const away = await read(id, { powerMw: 500, distanceTenthMm: 40 });
    expect(away.problem).toBe("invalid-request");
  });

  test("counts a wrong reading no more once another stands in its place", async () => {
    const { id } = await add();
    const wrong = (await read(id, { irradianceMwCm2: 120 })).ok.readings[0]!;
    const mended = await read(id, { irradianceMwCm2: 1200, replacesId: wrong.id });
    expect(mended.ok).toMatchObject({ state: "good", lossPercent: 0 });
    expect(
      mended.ok.readings.map(({ replaced }) => replaced).sort((a, b) => Number(a) - Number(b)),
    ).toEqual([false, true]);
    const again = await read(id, { irradianceMwCm2: 1210, replacesId: wrong.id });
    expect(again.problem).toBe("not-found");
  });

  test("takes no reading of the future, of no mode of its own, or of both kinds", async () => {
    const { id } = await add();
    const future = await read(id, { irradianceMwCm2: 1, readAt: "2026-06-15T08:00:01.000Z" });
    expect(future.problem).toBe("invalid-request");
    expect((await read(id, { irradianceMwCm2: 1, mode: "Turbo" })).problem).toBe("not-found");
    expect((await read(id, { irradianceMwCm2: 1, powerMw: 1 })).problem).toBe("invalid-request");
    expect((await read(id, {})).problem).toBe("invalid-request");
  });

  test("is due the day after the practice's days are over", async () => {
    const { id } = await add();
    await read(id, { irradianceMwCm2: 1000 });
    const stateOn = async (day: string) => {
      it.clock.set(`${day}T08:00:00.000Z`);
      for (const role of roleNames) await it.practice[role].signIn(role);
      return (await it.practice.office.call("getLight", { params: { lightId: id } })).ok.state;
    };
    expect(await stateOn("2026-07-15")).toBe("good");
    expect(await stateOn("2026-07-16")).toBe("due");
  });

  test("is named once, belongs to an operatory or none, and is retired last in the list", async () => {
    const { name, id } = await add();
    const facts = { body: { name, modes: [{ name: "Standard" }] } };
    expect((await it.practice.office.call("addLight", facts)).problem).toBe("name-taken");
    const inStore = { ...facts.body, name: make.name("L"), locationId: make.places.store };
    expect((await it.practice.office.call("addLight", { body: inStore })).problem).toBe(
      "not-found",
    );
    const given = { params: { lightId: id }, body: { name, retired: true } };
    expect((await it.practice.office.call("changeLight", given)).ok.retired).toBe(true);
    const { lights } = (await it.practice.office.call("listLights")).ok;
    expect(lights.at(-1)).toMatchObject({ id, retired: true });
  });
});
