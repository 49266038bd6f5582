import { describe, expect, test } from "@jest/globals";
import { computeLightState } from "./light-state.ts";

const settings = { lightFloorMwCm2: 400, lightCheckDays: 30 };
const read = (readOn: string, irradianceMwPerCm2: number) => ({ readOn, irradianceMwPerCm2 });

describe("the state of a curing light", () => {
  test.each([
    ["2026-11-30", "good"],
    ["2026-12-01", "good"],
    ["2026-12-02", "due"],
  ])("read on 1 November with 30 days allowed, on %s: %s", (today, state) => {
    const found = computeLightState([read("2026-11-01", 1000)], settings, today);
    expect(found).toMatchObject({ state, readOn: "2026-11-01", dueOn: "2026-12-01" });
  });

  test.each([
    [399, "weak"],
    [400, "good"],
  ])("of %i mW/cm2 over a floor of 400: %s", (irradiance, state) => {
    const readings = [read("2026-11-01", irradiance)];
    expect(computeLightState(readings, settings, "2026-11-02").state).toBe(state);
  });

  // 1200 to 940 mW/cm2 is a loss of 21.7 %: arithmetic, against the light's own first reading.
  test("tells the loss against its own first reading, whatever lies between", () => {
    const readings = [read("2026-01-01", 1200), read("2026-05-01", 1300), read("2026-11-01", 940)];
    expect(computeLightState(readings, settings, "2026-11-02").lossPercent).toBe(21.7);
  });

  test("is unread without a reading", () => {
    expect(computeLightState([], settings, "2026-11-02")).toEqual({
      state: "unread",
      readOn: null,
      dueOn: null,
      lossPercent: null,
    });
  });
});
