import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, primerNorth } from "../facts.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const dispensed = (dispensedAt: string | null, dropLifeSeconds: number | null = 60) =>
  aTray({ items: [anItem(primerNorth), anItem(aProduct({ dropLifeSeconds }), { dispensedAt })] });

describe("drop-aging", () => {
  test.each([
    ["2026-11-25T08:58:59Z", 1],
    ["2026-11-25T08:59:00Z", 0],
    ["2026-11-25T08:59:01Z", 0],
  ])("dispensed at %s with 60 s allowed, checked at 9: %i caution", (at, count) => {
    expect(countFindings(dispensed(at), "drop-aging")).toBe(count);
  });

  test("says both times", () => {
    expect(getFinding(dispensed("2026-11-25T08:57:00Z"), "drop-aging")).toMatchObject({
      level: "caution",
      numbers: { ageSeconds: 180, lifeSeconds: 60 },
      remedy: { code: "fresh-drop" },
    });
  });

  test("assumes no life of a drop, and is silent before one is dispensed", () => {
    expect(countFindings(dispensed("2026-11-25T08:00:00Z", null), "drop-aging")).toBe(0);
    expect(countFindings(dispensed(null), "drop-aging")).toBe(0);
  });
});
