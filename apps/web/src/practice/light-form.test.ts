import { describe, expect, test } from "@jest/globals";
import { readModes, readTenthMm, usualMode } from "./light-form.ts";

test.each([
  ["8", 80],
  ["7,5", 75],
  ["10.0", 100],
  ["7.55", null],
  ["", null],
  ["wide", null],
])("%j mm are %j tenths", (text, tenths) => expect(readTenthMm(text)).toBe(tenths));

describe("the modes of a light", () => {
  test("give all at once, rise, or have two stages", () => {
    const rows = [
      usualMode,
      { name: " Soft ", course: "rising" as const, seconds: "5", fromPercent: "10" },
      { name: "Two", course: "stages" as const, seconds: "3", fromPercent: "40" },
      { ...usualMode, name: " " },
    ];
    expect(readModes(rows)).toEqual([
      { name: "Standard", phases: [] },
      { name: "Soft", phases: [{ seconds: 5, fromPercent: 10, toPercent: 100 }] },
      {
        name: "Two",
        phases: [
          { seconds: 3, fromPercent: 40, toPercent: 40 },
          { seconds: 120, fromPercent: 100, toPercent: 100 },
        ],
      },
    ]);
  });
});
