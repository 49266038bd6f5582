import { describe, expect, test } from "@jest/globals";
import { aCoatedTray } from "../troubled-visits.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

describe("modulus-or-filler-low", () => {
  test.each([
    [59.9, 1],
    [60, 0],
    [60.1, 0],
  ])("a filler of %d % where 60 are asked for: %i caution", (fillerPercent, count) => {
    const tray = aCoatedTray({ fillerPercent }, { minFillerPercent: 60 });
    expect(countFindings(tray, "modulus-or-filler-low")).toBe(count);
  });

  test.each([
    [4.9, 1],
    [5, 0],
    [5.1, 0],
  ])("a modulus of %d GPa where 5 are asked for: %i caution", (modulusGpa, count) => {
    const tray = aCoatedTray({ modulusGpa }, { minModulusGpa: 5 });
    expect(countFindings(tray, "modulus-or-filler-low")).toBe(count);
  });

  test("says both figures, and where one is not stated", () => {
    const low = aCoatedTray({ fillerPercent: 40 }, { minFillerPercent: 60 });
    expect(getFinding(low, "modulus-or-filler-low")).toMatchObject({
      level: "caution",
      subject: { stepKey: "flowable" },
      numbers: { reason: "filler", held: 40, needed: 60 },
    });
    const unknown = aCoatedTray({}, { minModulusGpa: 5 });
    expect(getFinding(unknown, "modulus-or-filler-low").numbers).toEqual({
      reason: "modulus-not-stated",
      needed: 5,
    });
  });

  test("is silent where the technique asks for nothing", () => {
    expect(countFindings(aCoatedTray({}, {}), "modulus-or-filler-low")).toBe(0);
  });
});
