import { describe, expect, test } from "@jest/globals";
import { listDistances, reckonCure, type Light } from "./cure.ts";

const at = (distanceTenthMm: number, irradianceMwCm2: number) => ({
  distanceTenthMm,
  irradianceMwCm2,
  readAt: "2026-06-01T08:00:00.000Z",
});
// Lamp B: IADR 2013, IAGS abstract 684, table 1.
const lamp = {
  id: "l",
  modes: [
    { name: "Standard", phases: [], table: [at(0, 1226), at(40, 806)] },
    {
      name: "Soft",
      phases: [{ seconds: 10, fromPercent: 0, toPercent: 100 }],
      table: [at(0, 1000)],
    },
    { name: "Unread", phases: [], table: [] },
  ],
} as unknown as Light;
const choose = (mode: string | null, distanceTenthMm = 0) => ({
  lightId: "l",
  mode,
  distanceTenthMm,
});

describe("a cure at the chair", () => {
  // 16 J/cm2 at 1226 and 806 mW/cm2 take 14 and 20 whole seconds: H = E t, FDI statement, 2021.
  test.each([
    [0, 1226, 14],
    [40, 806, 20],
  ])("at %i tenths of a mm has %i mW/cm2, and %i s would do", (distance, irradiance, seconds) => {
    const told = { seconds: 10, neededJCm2: 16 };
    expect(reckonCure(lamp, choose("Standard", distance), told)).toMatchObject({
      irradianceMwCm2: irradiance,
      known: "measured",
      enoughSeconds: seconds,
    });
  });

  test("that rises for ten seconds needs five seconds more", () => {
    const told = { seconds: 10, neededJCm2: 10 };
    expect(reckonCure(lamp, choose("Soft"), told)).toMatchObject({
      givenJCm2: 5,
      enoughSeconds: 15,
    });
  });

  test("with the first mode where none is chosen, and with no need where none is stated", () => {
    const told = { seconds: 10, neededJCm2: null };
    expect(reckonCure(lamp, choose(null), told)).toEqual({
      irradianceMwCm2: 1226,
      known: "measured",
      givenJCm2: 12.26,
      enoughSeconds: null,
    });
  });

  test("is not reckoned of a mode never measured, nor without a light", () => {
    const told = { seconds: 10, neededJCm2: 16 };
    expect(reckonCure(lamp, choose("Unread"), told)).toBeNull();
    expect(reckonCure(undefined, choose(null), told)).toBeNull();
  });
});

test("a distance that is planned can be chosen, in its place", () => {
  expect(listDistances(40)).toEqual([0, 20, 40, 60, 80]);
  expect(listDistances(30)).toEqual([0, 20, 30, 40, 60, 80]);
});
