import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond, someSettings } from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

const endingOn = (date: string) =>
  aTrayWithBond({ container: { useBy: { date, precision: "day" } } });

describe("short-dated", () => {
  test.each([
    ["29 days left", "2026-12-24", ["short-dated"]],
    ["30 days left", "2026-12-25", []],
    ["31 days left", "2026-12-26", []],
  ])("with %s of 30", (_, date, codes) => {
    expect(listCodes(endingOn(date))).toEqual(codes);
  });

  test("counts the days as a calendar does: 36 from 25 November to 31 December", () => {
    const facts = { ...endingOn("2026-12-31"), settings: someSettings({ shortDatedDays: 90 }) };
    expect(getFinding(facts, "short-dated")).toMatchObject({
      level: "caution",
      numbers: { end: "2026-12-31", daysLeft: 36, limit: 90 },
      remedy: { code: "use-soon" },
      until: "2027-01-01",
    });
  });

  test("says nothing where the practice wants no days to be left", () => {
    const facts = { ...endingOn("2026-12-02"), settings: someSettings({ shortDatedDays: 0 }) };
    expect(listCodes(facts)).toEqual([]);
  });

  test("is a stop where the practice raised it", () => {
    const facts = {
      ...endingOn("2026-12-24"),
      settings: someSettings({ raised: ["short-dated"] }),
    };
    expect(getFinding(facts, "short-dated").level).toBe("stop");
  });
});
