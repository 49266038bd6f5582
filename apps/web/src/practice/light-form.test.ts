import { describe, expect, test } from "@jest/globals";
import {
  draftLike,
  readModes,
  readReading,
  readTenthMm,
  usualMode,
  type ReadingDraft,
} from "./light-form.ts";

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

describe("a reading that is filled in", () => {
  const zone = "Europe/Berlin";
  const draft: ReadingDraft = {
    ...{ mode: "Standard", as: "irradiance", value: "980", distance: "0" },
    ...{ radiometer: "Meter", note: "", at: "", replacesId: "" },
  };
  const wrong = {
    ...{ id: "w", mode: "Soft", distanceTenthMm: 45, irradianceMwCm2: 98, radiometer: "Old" },
    ...{ note: "typed in haste", readAt: "2026-07-15T07:30:42.120Z", person: "A" },
    replaced: false,
  };

  test("is of now, of a time on the practice's clock, or of no time at all", () => {
    const kept = { mode: "Standard", distanceTenthMm: 0, radiometer: "Meter", note: "" };
    expect(readReading(draft, undefined, zone)).toEqual({ ...kept, irradianceMwCm2: 980 });
    const power = { ...draft, as: "power" as const, at: "2026-07-15T09:30" };
    expect(readReading(power, undefined, zone)).toEqual({
      ...kept,
      powerMw: 980,
      readAt: "2026-07-15T07:30:00.000Z",
    });
    // Left out by the change to summer time: Directive 2000/84/EC.
    expect(readReading({ ...draft, at: "2026-03-29T02:30" }, undefined, zone)).toBeNull();
    expect(readReading({ ...draft, distance: "far" }, undefined, zone)).toBeNull();
  });

  test("takes over all but the value of the one that it replaces, with its very moment", () => {
    const like = { ...draft, ...draftLike(wrong, zone) };
    expect(like).toMatchObject({ mode: "Soft", distance: "4.5", at: "2026-07-15T09:30" });
    expect(readReading(like, wrong, zone)).toEqual({
      ...{ mode: "Soft", distanceTenthMm: 45, radiometer: "Old", note: "", irradianceMwCm2: 980 },
      ...{ readAt: wrong.readAt, replacesId: "w" },
    });
    const moved = readReading({ ...like, at: "2026-07-15T10:00" }, wrong, zone);
    expect(moved?.readAt).toBe("2026-07-15T08:00:00.000Z");
  });
});
