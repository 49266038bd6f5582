import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import {
  addDays,
  addMonths,
  civilDateAt,
  daysBetween,
  isCivilDate,
  isTimeZone,
  lastDayOfMonth,
} from "./civil-date.ts";

const someDay = fc
  .integer({ min: 0, max: 300 * 365 })
  .map((days) => Temporal.PlainDate.from("1850-01-01").add({ days }).toString());
const someZone = fc.constantFrom(
  "UTC",
  "Europe/Berlin",
  "America/New_York",
  "America/Los_Angeles",
  "America/St_Johns",
  "Pacific/Auckland",
  "Pacific/Kiritimati",
  "Pacific/Apia",
  "Australia/Lord_Howe",
  "Asia/Kathmandu",
);

describe("civil dates", () => {
  test.each(["2026-11-25", "2028-02-29", "2000-02-29", "0001-01-01", "9999-12-31"])(
    "%s is a date",
    (text) => {
      expect(isCivilDate(text)).toBe(true);
    },
  );

  test.each([
    "2026-02-29",
    "1900-02-29",
    "2026-04-31",
    "2026-13-01",
    "2026-00-10",
    "2026-01-00",
    "2026-01-32",
    "0000-01-01",
    "2026-1-1",
    "26-01-01",
    "20260101",
    "2026-01-01T00:00:00Z",
    " 2026-01-01",
    "2026-01-01\n",
    "٢٠٢٦-٠١-٠١",
    "",
  ])("%j is none", (text) => {
    expect(isCivilDate(text)).toBe(false);
  });

  test("every text of the right shape is judged as Temporal judges it", () => {
    const shaped = fc
      .tuple(fc.integer({ min: 1, max: 9999 }), fc.nat(15), fc.nat(35))
      .map(([y, m, d]) =>
        [String(y).padStart(4, "0"), String(m).padStart(2, "0"), String(d).padStart(2, "0")].join(
          "-",
        ),
      );
    const temporalReads = (text: string): boolean => {
      try {
        return Temporal.PlainDate.from(text, { overflow: "reject" }).toString() === text;
      } catch {
        return false;
      }
    };
    fc.assert(fc.property(shaped, (text) => isCivilDate(text) === temporalReads(text)));
  });

  test("days are added and counted as Temporal does", () => {
    fc.assert(
      fc.property(someDay, fc.integer({ min: -50_000, max: 50_000 }), (day, count) => {
        const sum = Temporal.PlainDate.from(day).add({ days: count }).toString();
        expect(addDays(day, count)).toBe(sum);
        expect(daysBetween(day, sum)).toBe(count);
      }),
    );
  });

  test("months are added with the day clamped, as Temporal does", () => {
    fc.assert(
      fc.property(someDay, fc.integer({ min: -500, max: 500 }), (day, months) => {
        expect(addMonths(day, months)).toBe(
          Temporal.PlainDate.from(day).add({ months }, { overflow: "constrain" }).toString(),
        );
      }),
    );
  });

  test("a month's last day is Temporal's", () => {
    fc.assert(
      fc.property(someDay, (day) => {
        const date = Temporal.PlainDate.from(day);
        expect(lastDayOfMonth(day)).toBe(date.with({ day: date.daysInMonth }).toString());
      }),
    );
  });

  test("the first and the last date there is can be reached and not passed", () => {
    expect(addDays("9999-12-30", 1)).toBe("9999-12-31");
    expect(addDays("0001-01-02", -1)).toBe("0001-01-01");
    expect(() => addDays("9999-12-31", 1)).toThrow(RangeError);
    expect(() => addMonths("0001-01-31", -1)).toThrow(RangeError);
  });

  test("arithmetic on a text that is no date throws instead of guessing", () => {
    expect(() => addDays("2026-02-29", 1)).toThrow("not a civil date: 2026-02-29");
    expect(() => addMonths("", 1)).toThrow(RangeError);
    expect(() => daysBetween("2026-01-01", "soon")).toThrow(RangeError);
    expect(() => lastDayOfMonth("2026-11")).toThrow(RangeError);
  });
});

describe("the practice's day", () => {
  test("is the wall calendar's of every zone at every instant, as Temporal has it", () => {
    const instants = fc.date({
      min: new Date("1970-01-01T00:00:00Z"),
      max: new Date("2100-01-01T00:00:00Z"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(instants, someZone, (instant, zone) => {
        const iso = instant.toISOString();
        expect(civilDateAt(iso, zone)).toBe(
          Temporal.Instant.from(iso).toZonedDateTimeISO(zone).toPlainDate().toString(),
        );
      }),
    );
  });

  test("changes at the practice's midnight on the days the clocks change", () => {
    // Berlin: summer time from 29 March to 25 October 2026.
    expect(civilDateAt("2026-03-28T22:59:59Z", "Europe/Berlin")).toBe("2026-03-28");
    expect(civilDateAt("2026-03-28T23:00:00Z", "Europe/Berlin")).toBe("2026-03-29");
    expect(civilDateAt("2026-03-29T21:59:59Z", "Europe/Berlin")).toBe("2026-03-29");
    expect(civilDateAt("2026-03-29T22:00:00Z", "Europe/Berlin")).toBe("2026-03-30");
    expect(civilDateAt("2026-10-25T22:59:59Z", "Europe/Berlin")).toBe("2026-10-25");
    expect(civilDateAt("2026-10-25T23:00:00Z", "Europe/Berlin")).toBe("2026-10-26");
  });

  test("reads an instant given with an offset", () => {
    expect(civilDateAt("2026-11-30T20:30:00-08:00", "America/Los_Angeles")).toBe("2026-11-30");
  });

  test("is refused where the instant or the zone does not exist", () => {
    expect(() => civilDateAt("tomorrow", "UTC")).toThrow(RangeError);
    expect(() => civilDateAt("2026-11-25T09:00:00Z", "Europe/Atlantis")).toThrow(RangeError);
  });

  test.each(["UTC", "Europe/Berlin", "America/Argentina/Buenos_Aires", "Etc/GMT+5"])(
    "%s is a time zone",
    (zone) => {
      expect(isTimeZone(zone)).toBe(true);
    },
  );

  test.each(["", "Europe/Atlantis", "+01:00", "Berlin", "Europe/Berlin "])(
    "%j is no time zone",
    (zone) => {
      expect(isTimeZone(zone)).toBe(false);
    },
  );
});
