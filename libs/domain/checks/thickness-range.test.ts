import { describe, expect, test } from "@jest/globals";
import { aCoatedTray } from "../troubled-visits.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const coat = (tenthMm: number, stepKey = "flowable") =>
  aCoatedTray({}, { thicknessTenthMm: { min: 3, max: 8 } }, [{ tooth: "16", stepKey, tenthMm }]);

describe("thickness-range", () => {
  test.each([
    [2, "thin"],
    [3, null],
    [8, null],
    [9, "thick"],
  ])("%i tenths of a millimetre in a range of 3 to 8: %s", (tenthMm, reason) => {
    if (reason === null) expect(countFindings(coat(tenthMm), "thickness-range")).toBe(0);
    else expect(getFinding(coat(tenthMm), "thickness-range").numbers.reason).toBe(reason);
  });

  test("names the tooth and the millimetres compared", () => {
    expect(getFinding(coat(9), "thickness-range")).toMatchObject({
      level: "caution",
      subject: { type: "step", stepKey: "flowable", name: "Step flowable, 16" },
      numbers: { tooth: "16", measuredMm: 0.9, minMm: 0.3, maxMm: 0.8 },
    });
  });

  test("is silent of a step without a range, and of one that is not there", () => {
    expect(countFindings(coat(99, "gone"), "thickness-range")).toBe(0);
    const free = aCoatedTray({}, {}, [{ tooth: "16", stepKey: "flowable", tenthMm: 99 }]);
    expect(countFindings(free, "thickness-range")).toBe(0);
  });
});
