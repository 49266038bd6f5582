import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, primerNorth } from "../facts.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const leftAt = (leftRefrigeratorAt: string | null, warmUpMinutes: number | null = 15) =>
  aTray({
    items: [anItem(primerNorth), anItem(aProduct({ warmUpMinutes }), { leftRefrigeratorAt })],
  });

describe("cold", () => {
  test.each([
    ["2026-11-25T08:45:01Z", 1],
    ["2026-11-25T08:45:00Z", 0],
    ["2026-11-25T08:44:59Z", 0],
  ])("out since %s with 15 minutes to warm up, checked at 9: %i caution", (at, count) => {
    expect(countFindings(leftAt(at), "cold")).toBe(count);
  });

  test("says the minutes left and when it is over by itself", () => {
    expect(getFinding(leftAt("2026-11-25T08:50:30Z"), "cold")).toMatchObject({
      level: "caution",
      numbers: { minutes: 15, minutesLeft: 6 },
      remedy: { code: "let-warm", numbers: { minutesLeft: 6 } },
      until: "2026-11-25T09:05:30.000Z",
    });
  });

  test("assumes no warm-up time, and is silent of what was never in a refrigerator", () => {
    expect(countFindings(leftAt("2026-11-25T08:59:00Z", null), "cold")).toBe(0);
    expect(countFindings(leftAt(null), "cold")).toBe(0);
  });
});
