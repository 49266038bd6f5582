import { describe, expect, test } from "@jest/globals";
import { readLabel, type LabelFields } from "./index.ts";
import { daysInMonth, resolveCentury, yearOf } from "./label-date.ts";

describe("the century of a two-digit year", () => {
  // GS1 General Specifications 7.12: 49 years back to 50 years ahead.
  test.each([
    [0, 2026, 2000],
    [26, 2026, 2026],
    [76, 2026, 2076],
    [77, 2026, 1977],
    [99, 2026, 1999],
    [99, 2050, 2099],
    [0, 2049, 2000],
    [0, 2050, 2100],
    [49, 2098, 2049],
    [48, 2098, 2148],
    [98, 2000, 1998],
    [50, 2000, 2050],
    [51, 2000, 1951],
  ])("of %i read in %i is %i", (yy, currentYear, year) => {
    expect(resolveCentury(yy, currentYear)).toBe(year);
  });

  test.each([
    [2023, 28],
    [2024, 29],
    [2000, 29],
    [2100, 28],
  ])("decides whether February of %i has %i days", (year, days) => {
    expect(daysInMonth(year, 2)).toBe(days);
  });

  test.each(["2026-6-15", "2026/06/15", "", "2026-06-15T00", "two thousand"])(
    "is not guessed from %j",
    (today) => {
      expect(yearOf(today)).toBeNaN();
      const result = readLabel("]d217261231", { today });
      expect(result).toMatchObject({ ok: false, error: { kind: "invalid_date", ai: "17" } });
    },
  );
});

function fieldsOf(elements: string, today = "2026-06-15"): LabelFields {
  const result = readLabel(`]d20109506000134352${elements}`, { today, associations: "enforce" });
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.fields;
}

describe("a date element", () => {
  // GS1 General Specifications, note to the date elements: 130200 and 160200 are its examples.
  test.each([
    ["130200", "2013-02-28", "month"],
    ["160200", "2016-02-29", "month"],
    ["260400", "2026-04-30", "month"],
    ["261231", "2026-12-31", "day"],
    ["280229", "2028-02-29", "day"],
    ["000229", "2000-02-29", "day"],
  ])("17%s is %s with precision %s", (value, date, precision) => {
    expect(fieldsOf(`17${value}`).expiry).toEqual({ date, precision });
  });

  test("29 February 2100 does not exist once 00 means 2100", () => {
    const options = { today: "2060-01-01" };
    expect(readLabel("]d217000229", options)).toMatchObject({ error: { kind: "invalid_date" } });
    expect(readLabel("]d217000228", options)).toMatchObject({
      fields: { expiry: { date: "2100-02-28" } },
    });
  });

  test.each([
    ["7003", "2612312359", "expiry", { date: "2026-12-31", precision: "minute", time: "23:59" }],
    ["8008", "26010107", "production", { date: "2026-01-01", precision: "hour", time: "07" }],
    [
      "8008",
      "2601010730",
      "production",
      { date: "2026-01-01", precision: "minute", time: "07:30" },
    ],
    [
      "8008",
      "260101073059",
      "production",
      { date: "2026-01-01", precision: "second", time: "07:30:59" },
    ],
    ["13", "260101", "packaging", { date: "2026-01-01", precision: "day" }],
    ["15", "260101", "best_before", { date: "2026-01-01", precision: "day" }],
    ["16", "260101", "sell_by", { date: "2026-01-01", precision: "day" }],
  ] as const)("(%s) %s fills %s", (ai, value, field, expected) => {
    expect(fieldsOf(ai + value)[field]).toEqual(expected);
  });

  test("gains the time of (7003) on the same day, in either order", () => {
    const timed = { date: "2026-12-31", precision: "minute", time: "12:00" };
    expect(fieldsOf("1726123170032612311200").expiry).toEqual(timed);
    expect(fieldsOf("70032612311200\u001d17261231").expiry).toEqual(timed);
  });

  test("gives the earlier of two different days, with a warning", () => {
    const raw = "]d20109506000134352172612317003261201" + "1200";
    expect(readLabel(raw, { today: "2026-06-15" })).toMatchObject({
      fields: { expiry: { date: "2026-12-01" } },
      warnings: [{ kind: "dates_disagree", ai: "7003", at: 27, length: 14 }],
    });
  });
});
