import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { civilDateAt } from "./civil-date.ts";
import { computeEffectiveEnd, computeInUseEnd, computeUseByEnd } from "./effective-end.ts";

const day = (date: string): { date: string; precision: "day" } => ({ date, precision: "day" });
const month = (date: string): { date: string; precision: "month" } => ({
  date,
  precision: "month",
});
const months = (count: number): { count: number; unit: "month" } => ({ count, unit: "month" });
const days = (count: number): { count: number; unit: "day" } => ({ count, unit: "day" });

describe("effective end", () => {
  // Use-by semantics of ISO 15223-1 5.1.4, year-month labels as in a note on that standard by a
  // humanitarian catalogue; the in-use rule is the project's own, in-use lives come from the IFU.
  test.each([
    {
      title: "the in-use life ends first",
      limits: { useBy: day("2026-12-31"), openedOn: "2026-01-31", inUseLife: months(6) },
      end: { date: "2026-07-31", decidedBy: "in-use-life" },
    },
    {
      title: "31 August and six months are clamped to 28 February",
      limits: { useBy: day("2027-12-31"), openedOn: "2026-08-31", inUseLife: months(6) },
      end: { date: "2027-02-28", decidedBy: "in-use-life" },
    },
    {
      title: "31 August and six months are 29 February in a leap year",
      limits: { useBy: day("2028-12-31"), openedOn: "2027-08-31", inUseLife: months(6) },
      end: { date: "2028-02-29", decidedBy: "in-use-life" },
    },
    {
      title: "the label ends first",
      limits: { useBy: day("2027-03-31"), openedOn: "2026-10-15", inUseLife: months(12) },
      end: { date: "2027-03-31", decidedBy: "use-by" },
    },
    {
      title: "both end on one day and the label decides",
      limits: { useBy: day("2026-12-31"), openedOn: "2026-12-01", inUseLife: days(30) },
      end: { date: "2026-12-31", decidedBy: "use-by" },
    },
    {
      title: "opened on a day with thirty days is usable through the thirtieth day after",
      limits: { useBy: null, openedOn: "2026-11-01", inUseLife: days(30) },
      end: { date: "2026-12-01", decidedBy: "in-use-life" },
    },
    {
      title: "a label of month precision runs to the month's last day",
      limits: { useBy: month("2028-02-01"), openedOn: null, inUseLife: months(6) },
      end: { date: "2028-02-29", decidedBy: "use-by" },
    },
    {
      title: "a sealed container has no in-use end",
      limits: { useBy: null, openedOn: null, inUseLife: days(30) },
      end: null,
    },
    {
      title: "an IFU without in-use life assumes none",
      limits: { useBy: null, openedOn: "2020-01-01", inUseLife: null },
      end: null,
    },
  ])("$title", ({ limits, end }) => {
    expect(computeEffectiveEnd(limits)).toEqual(end);
  });

  test("is never later than either limit", () => {
    const somewhen = fc.integer({ min: 0, max: 5000 }).map((offset) => {
      const date = new Date(Date.UTC(2024, 0, 1 + offset));
      return date.toISOString().slice(0, 10);
    });
    const life = fc.record({
      count: fc.integer({ min: 0, max: 60 }),
      unit: fc.constantFrom("day" as const, "month" as const),
    });
    fc.assert(
      fc.property(somewhen, somewhen, life, (useBy, openedOn, inUseLife) => {
        const end = computeEffectiveEnd({ useBy: day(useBy), openedOn, inUseLife })?.date ?? "";
        const inUse = computeInUseEnd(openedOn, inUseLife) ?? "";
        expect([useBy, inUse]).toContain(end);
        expect(end <= useBy && end <= inUse).toBe(true);
      }),
    );
  });

  // ISO 15223-1 5.1.4: not to be used after the date; the day is the practice's, not the server's.
  test.each([
    {
      title: "on the use-by day itself it is usable",
      useBy: day("2026-11-30"),
      at: "2026-11-30T15:00:00Z",
      zone: "America/New_York",
      usable: true,
    },
    {
      title: "the day after a month label's month it is not",
      useBy: month("2026-11-30"),
      at: "2026-12-01T15:00:00Z",
      zone: "America/New_York",
      usable: false,
    },
    {
      title: "while UTC is a day ahead it still is",
      useBy: day("2026-11-30"),
      at: "2026-12-01T04:30:00Z",
      zone: "America/Los_Angeles",
      usable: true,
    },
  ])("$title", ({ useBy, at, zone, usable }) => {
    expect(computeUseByEnd(useBy) >= civilDateAt(at, zone)).toBe(usable);
  });
});
