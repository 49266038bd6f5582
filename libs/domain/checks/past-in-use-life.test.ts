import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, primerNorth, today } from "../facts.fixture.ts";
import type { InUseLife, TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

function openedWith(openedOn: string, inUseLife: InUseLife | null): TrayFacts {
  const bond = aProduct({ inUseLife });
  return aTray({
    items: [anItem(primerNorth), anItem(bond, { container: { openedOn, state: "open" } })],
  });
}

describe("past-in-use-life", () => {
  test.each([
    ["the day before", "2026-10-25", 1],
    ["that very day", "2026-10-26", 0],
    ["the day after", "2026-10-27", 0],
  ])("30 days after opening ended on %s of the check", (_, openedOn, count) => {
    const facts = openedWith(openedOn, { count: 30, unit: "day" });
    expect(countFindings(facts, "past-in-use-life")).toBe(count);
  });

  test.each([
    ["2027-02-28T12:00:00Z", 0],
    ["2027-03-01T12:00:00Z", 1],
  ])("opened on 31 August with six months it ends with February: %s", (at, count) => {
    const facts = {
      ...openedWith("2026-08-31", { count: 6, unit: "month" }),
      appointmentAt: at,
    };
    expect(countFindings(facts, "past-in-use-life", at)).toBe(count);
  });

  test("no in-use life is assumed where the IFU gives none", () => {
    expect(countFindings(openedWith("2020-01-01", null), "past-in-use-life")).toBe(0);
  });

  test("a sealed container has no opening to count from", () => {
    const facts = aTray({
      items: [anItem(primerNorth), anItem(aProduct({ inUseLife: { count: 1, unit: "day" } }))],
    });
    expect(countFindings(facts, "past-in-use-life")).toBe(0);
  });

  test("names when it was opened, how long the IFU gives and when that ended", () => {
    const facts = openedWith("2026-10-01", { count: 30, unit: "day" });
    expect(getFinding(facts, "past-in-use-life")).toMatchObject({
      level: "stop",
      numbers: { openedOn: "2026-10-01", usableThrough: "2026-10-31", today },
      remedy: { code: "discard" },
      because: [
        { what: "opened-on", value: "2026-10-01", from: "stock" },
        { what: "in-use-life-days", value: 30, from: "ifu" },
        { what: "today", value: today, from: "reading" },
      ],
    });
  });
});
