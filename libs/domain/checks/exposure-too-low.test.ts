import { describe, expect, test } from "@jest/globals";
import { aCuredTray, lampB } from "../troubled-visits.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

// Irradiance of lamp B: IADR 2013, IAGS abstract 684, table 1; 16 J/cm2: Braz Oral Res 2015;29. The
// seconds are H / E, FDI policy statement on intraoral light curing, 2021.
describe("exposure-too-low", () => {
  test.each([
    [13, 0, 1],
    [14, 0, 0],
    [19, 40, 1],
    [20, 40, 0],
  ])("lamp B for %i s at %i tenths of a mm for 16 J/cm2: %i stop", (seconds, distance, count) => {
    const tray = aCuredTray({ seconds, neededJ: 16, distanceTenthMm: distance });
    expect(countFindings(tray, "exposure-too-low")).toBe(count);
  });

  test("says what is given, what is needed, and the whole seconds that would do", () => {
    const tray = aCuredTray({ seconds: 19, neededJ: 16, distanceTenthMm: 40 });
    expect(getFinding(tray, "exposure-too-low")).toMatchObject({
      level: "stop",
      subject: { itemId: "item-bond-north", stepKey: "adhesive" },
      numbers: {
        reason: "measured",
        light: "Lamp B",
        seconds: 19,
        irradiance: 806,
        distanceMm: 4,
        givenJ: 15.3,
        neededJ: 16,
        enoughSeconds: 20,
      },
      remedy: { code: "cure-longer", numbers: { enoughSeconds: 20 } },
    });
  });

  test("a burst of 3200 mW/cm2 for 3 s gives 9.6 J/cm2 only", () => {
    const table = [{ distanceTenthMm: 0, irradianceMwPerCm2: 3200 }];
    const tray = aCuredTray({ seconds: 3, neededJ: 16, light: { ...lampB, table } });
    const { givenJ, enoughSeconds } = getFinding(tray, "exposure-too-low").numbers;
    expect([givenJ, enoughSeconds]).toEqual([9.6, 5]);
  });

  test("reckons between two readings, and calls it an estimate beyond them", () => {
    const reasonAt = (distanceTenthMm: number) =>
      getFinding(aCuredTray({ seconds: 10, neededJ: 16, distanceTenthMm }), "exposure-too-low");
    expect(reasonAt(20).numbers).toMatchObject({ reason: "between", irradiance: 1016 });
    expect(reasonAt(80).numbers).toMatchObject({ reason: "estimate", irradiance: 806 });
    const tip = { ...lampB, table: [{ distanceTenthMm: 0, irradianceMwPerCm2: 1000 }] };
    const tray = aCuredTray({ seconds: 15, neededJ: 16, distanceTenthMm: 40, light: tip });
    expect(getFinding(tray, "exposure-too-low").numbers).toMatchObject({ reason: "estimate" });
  });

  test("asks for another light where this one gives nothing", () => {
    const table = [{ distanceTenthMm: 0, irradianceMwPerCm2: 0 }];
    const tray = aCuredTray({ seconds: 10, neededJ: 16, light: { ...lampB, table } });
    expect(getFinding(tray, "exposure-too-low").remedy.code).toBe("change-light");
  });

  test("is silent without a light, a reading, a cure or a need", () => {
    const none = [
      aCuredTray({ seconds: 1, neededJ: 16, light: null }),
      aCuredTray({ seconds: 1, neededJ: 16, light: { ...lampB, table: [] } }),
      aCuredTray({ seconds: 0, neededJ: 16 }),
      aCuredTray({ seconds: 1 }),
    ];
    for (const tray of none) expect(countFindings(tray, "exposure-too-low")).toBe(0);
  });
});
