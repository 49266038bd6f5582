import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  computeExitance,
  computeLossPercent,
  computeModeExposure,
  computeRadiantExposure,
  exposureOfMode,
  irradianceAtDistance,
  secondsForExposure,
} from "./light-output.ts";

describe("radiant exposure", () => {
  // H = E t: FDI policy statement on intraoral light curing, 2021; Watts, Front Dent Med 2023;4.
  test.each([
    [1000, 20, 20_000],
    [400, 40, 16_000],
    [3200, 3, 9600],
  ])("of %i mW/cm2 for %i s is %i mJ/cm2", (irradiance, seconds, exposure) => {
    expect(computeRadiantExposure(irradiance, seconds)).toBe(exposure);
  });

  // Irradiances of one light at 0 and 4 mm: IADR 2013, IAGS abstract 684, table 1. 16 J/cm2: Braz
  // Oral Res 2015;29.
  test.each([
    [1226, 14],
    [806, 20],
    [800, 20],
    [801, 20],
    [799, 21],
  ])("16 J/cm2 at %i mW/cm2 takes %i whole seconds", (irradiance, seconds) => {
    expect(secondsForExposure(16_000, irradiance)).toBe(seconds);
  });

  test("a light that gives nothing never gets there", () => {
    expect(secondsForExposure(16_000, 0)).toBeNull();
  });

  test("the seconds that would do are enough, and one less is not", () => {
    const amount = fc.integer({ min: 1, max: 100_000 });
    fc.assert(
      fc.property(amount, fc.integer({ min: 1, max: 5000 }), (needed, irradiance) => {
        const seconds = secondsForExposure(needed, irradiance) ?? 0;
        expect(computeRadiantExposure(irradiance, seconds)).toBeGreaterThanOrEqual(needed);
        expect(computeRadiantExposure(irradiance, seconds - 1)).toBeLessThan(needed);
      }),
    );
  });
});

describe("modes with phases", () => {
  // Integrals by hand.
  const softStart = [
    { seconds: 5, fromMwPerCm2: 0, toMwPerCm2: 1000 },
    { seconds: 15, fromMwPerCm2: 1000, toMwPerCm2: 1000 },
  ];
  test.each([
    [0, 0],
    [2.5, 625],
    [5, 2500],
    [6, 3500],
    [20, 17_500],
    [60, 17_500],
  ])("a soft start brings in %d s", (seconds, exposure) => {
    expect(computeModeExposure(softStart, seconds)).toBe(exposure);
  });

  test("two stages add up", () => {
    const stages = [
      { seconds: 3, fromMwPerCm2: 200, toMwPerCm2: 200 },
      { seconds: 7, fromMwPerCm2: 1100, toMwPerCm2: 1100 },
    ];
    expect(computeModeExposure(stages, 10)).toBe(600 + 7700);
  });

  test("one even phase is the plain formula", () => {
    fc.assert(
      fc.property(fc.integer({ max: 5000, min: 0 }), fc.integer({ min: 1, max: 60 }), (e, t) => {
        const even = [{ seconds: 60, fromMwPerCm2: e, toMwPerCm2: e }];
        expect(computeModeExposure(even, t)).toBe(computeRadiantExposure(e, t));
      }),
    );
  });
});

describe("a mode in shares of the light's output", () => {
  const softStart = [{ seconds: 10, fromPercent: 0, toPercent: 100 }];

  // Half of 1000 mW/cm2 for ten seconds on average, then all of it: H is the integral of E.
  test.each([
    [5, 1250],
    [10, 5000],
    [15, 10_000],
  ])("a soft start of ten seconds gives in %i s %i mJ/cm2", (seconds, given) => {
    expect(exposureOfMode(softStart, 1000, seconds)).toBe(given);
  });

  test("without phases the output is full all the time, and in no time it gives nothing", () => {
    expect(exposureOfMode([], 1000, 20)).toBe(20_000);
    expect(exposureOfMode(softStart, 1000, 0)).toBe(0);
  });
});

describe("the light's own table of distances", () => {
  const table = [
    { distanceTenthMm: 80, irradianceMwPerCm2: 400 },
    { distanceTenthMm: 0, irradianceMwPerCm2: 1200 },
    { distanceTenthMm: 40, irradianceMwPerCm2: 801 },
  ];
  test.each([
    [0, 1200, "measured"],
    [40, 801, "measured"],
    [20, 1000, "between"],
    [60, 600, "between"],
    [80, 400, "measured"],
    [81, 400, "estimate"],
  ] as const)("at %i tenths of a millimetre", (distance, irradianceMwPerCm2, known) => {
    expect(irradianceAtDistance(table, distance)).toEqual({ irradianceMwPerCm2, known });
  });

  test("nearer than anything measured is an estimate, and without readings there is none", () => {
    const far = [{ distanceTenthMm: 20, irradianceMwPerCm2: 900 }];
    expect(irradianceAtDistance(far, 0)).toEqual({ irradianceMwPerCm2: 900, known: "estimate" });
    expect(irradianceAtDistance([], 0)).toBeNull();
  });
});

describe("a light against its figures and itself", () => {
  // ISO 10650: radiant power over the optical cross-section; 500 mW from 8 mm is 994.7 mW/cm2.
  test("the exitance is the power over the tip's area", () => {
    expect(computeExitance(500, 80)).toBe(994);
    expect(computeExitance(500, 0)).toBeNull();
  });

  // The two lights of IADR 2013, IAGS abstract 684, table 1, centre sensor, 0 to 4 mm.
  test.each([
    [2758, 806, 70.7759],
    [1012, 864, 14.6245],
    [1200, 940, 21.6667],
    [1000, 1050, -5],
  ])("from %i to %i mW/cm2", (first, now, percent) => {
    expect(computeLossPercent(first, now)).toBeCloseTo(percent, 4);
  });

  test("a light that never gave anything has lost nothing that can be said", () => {
    expect(computeLossPercent(0, 0)).toBeNull();
  });
});
