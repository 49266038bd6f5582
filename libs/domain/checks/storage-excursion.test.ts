import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, primerNorth } from "../facts.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const excursion = (from: string, to: string) => ({ id: from, place: "Fridge", from, to });
const night = excursion("2026-11-20T22:30:00Z", "2026-11-21T04:00:00Z");
const withExcursions = (
  excursions: readonly (typeof night)[],
  excursionLevel: "caution" | "stop" = "caution",
) => aTray({ items: [anItem(primerNorth), anItem(aProduct({ excursionLevel }), { excursions })] });

describe("storage-excursion", () => {
  test("is a caution, or a stop where the product says so", () => {
    expect(getFinding(withExcursions([night]), "storage-excursion").level).toBe("caution");
    expect(getFinding(withExcursions([night], "stop"), "storage-excursion").level).toBe("stop");
  });

  test("tells its days by the practice's own clock", () => {
    // 23:30 in Berlin on the 20th, 5:00 on the 21st.
    expect(getFinding(withExcursions([night]), "storage-excursion").numbers).toEqual({
      reason: "days",
      place: "Fridge",
      from: "2026-11-20",
      to: "2026-11-21",
    });
    const afternoon = { ...withExcursions([night]), timeZone: "America/Los_Angeles" };
    expect(getFinding(afternoon, "storage-excursion").numbers).toMatchObject({ reason: "day" });
  });

  test("names the earliest of several, whatever their order", () => {
    const later = excursion("2026-11-23T08:00:00Z", "2026-11-23T09:00:00Z");
    for (const both of [
      [night, later],
      [later, night],
    ]) {
      expect(getFinding(withExcursions(both), "storage-excursion").numbers.from).toBe("2026-11-20");
    }
  });

  test("is silent where every excursion is settled", () => {
    expect(countFindings(withExcursions([]), "storage-excursion")).toBe(0);
  });
});
