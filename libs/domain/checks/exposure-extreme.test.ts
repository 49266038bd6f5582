import { describe, expect, test } from "@jest/globals";
import { someSettings } from "../facts.fixture.ts";
import { aCuredTray, lampB } from "../troubled-visits.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const giving = (irradianceMwPerCm2: number) => ({
  ...lampB,
  table: [{ distanceTenthMm: 0, irradianceMwPerCm2 }],
});

// Caution above 1500 to 2000 mW/cm2 with exposures of 1 to 5 s: Halifax consensus statement, 2014.
describe("exposure-extreme", () => {
  test.each([
    [1999, 0],
    [2000, 0],
    [2001, 1],
  ])("a light of %i mW/cm2 under a ceiling of 2000: %i caution", (output, count) => {
    const tray = aCuredTray({ seconds: 10, light: giving(output) });
    expect(countFindings(tray, "exposure-extreme")).toBe(count);
  });

  test.each([
    [4, 1],
    [5, 0],
    [6, 0],
  ])("a cure of %i s: %i caution", (seconds, count) => {
    expect(countFindings(aCuredTray({ seconds }), "exposure-extreme")).toBe(count);
  });

  test("warns although the product of both would do", () => {
    const tray = aCuredTray({ seconds: 4, neededJ: 16, light: giving(4000) });
    expect(countFindings(tray, "exposure-too-low")).toBe(0);
    expect(countFindings(tray, "exposure-extreme")).toBe(2);
  });

  test("is about the light, and heeds the practice's own ceiling", () => {
    const settings = someSettings({ lightCeilingMwCm2: 1200 });
    expect(
      getFinding({ ...aCuredTray({ seconds: 10 }), settings }, "exposure-extreme"),
    ).toMatchObject({
      level: "caution",
      subject: { type: "light", name: "Lamp B", stepKey: "adhesive" },
      numbers: { reason: "output", output: 1226, ceiling: 1200 },
    });
  });

  test("is silent of a light that nothing is cured with", () => {
    expect(countFindings(aCuredTray({ seconds: 0, light: giving(4000) }), "exposure-extreme")).toBe(
      0,
    );
  });
});
