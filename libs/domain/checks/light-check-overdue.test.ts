import { describe, expect, test } from "@jest/globals";
import { aCuredTray, lampB } from "../troubled-visits.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const readOn = (day: string | null) =>
  aCuredTray({ seconds: 10, light: { ...lampB, readOn: day } });
const giving = (irradianceMwPerCm2: number) =>
  aCuredTray({
    seconds: 10,
    light: { ...lampB, table: [{ distanceTenthMm: 0, irradianceMwPerCm2 }], readOn: "2026-11-25" },
  });

// Weekly to monthly, and the limit itself: common practice, no source.
describe("light-check-overdue", () => {
  test.each([
    ["2026-10-25", 1],
    ["2026-10-26", 0],
    ["2026-10-27", 0],
  ])("read on %s with 30 days allowed, checked on 25 November: %i caution", (day, count) => {
    expect(countFindings(readOn(day), "light-check-overdue")).toBe(count);
  });

  test.each([
    [399, "stop"],
    [400, null],
    [401, null],
  ])("a light of %i mW/cm2 over a floor of 400: %s", (output, level) => {
    const found = level === null ? null : getFinding(giving(output), "light-check-overdue").level;
    expect(found).toBe(level);
    expect(countFindings(giving(output), "light-check-overdue")).toBe(level === null ? 0 : 1);
  });

  test("says how long ago, and of one never measured that it was not", () => {
    expect(getFinding(readOn("2026-10-20"), "light-check-overdue")).toMatchObject({
      level: "caution",
      numbers: { reason: "overdue", days: 36, limit: 30, readOn: "2026-10-20" },
      remedy: { code: "measure-light", numbers: { light: "Lamp B" } },
    });
    expect(getFinding(readOn(null), "light-check-overdue").numbers.reason).toBe("never");
  });

  test("is silent without a light, and where nothing is cured", () => {
    expect(countFindings(aCuredTray({ seconds: 10, light: null }), "light-check-overdue")).toBe(0);
    const uncured = aCuredTray({ seconds: 0, light: { ...lampB, readOn: null } });
    expect(countFindings(uncured, "light-check-overdue")).toBe(0);
  });
});
