import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aTray,
  aTrayWithBond,
  anItem,
  primerNorth,
  someSettings,
} from "../facts.fixture.ts";
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

  test.each([
    [{ useBy: { date: "2026-12-10", precision: "day" } }, "use-by", "label"],
    [{ openedOn: "2026-11-10", state: "open" }, "usable-through", "ifu"],
  ] as const)("says which limit decided: %j", (container, what, from) => {
    const bond = aProduct({ inUseLife: { count: 30, unit: "day" } });
    const facts = aTray({ items: [anItem(primerNorth), anItem(bond, { container })] });
    expect(getFinding(facts, "short-dated").because).toEqual([
      { what, value: "2026-12-10", from },
      { what: "days-left", value: 15, from: "reading" },
      { what: "short-dated-days", value: 30, from: "practice" },
    ]);
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
