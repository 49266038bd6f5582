import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { civilDateAt, instantOfClock } from "#domain";
import { hourAt } from "../today/day-line.ts";
import { nextHalfHour } from "./practice-time.ts";

describe("an appointment's day and time in the practice's zone", () => {
  test("is one instant, in winter and in summer", () => {
    expect(instantOfClock("2026-01-15", "09:00", "Europe/Berlin")).toBe("2026-01-15T08:00:00.000Z");
    expect(instantOfClock("2026-07-15", "09:00", "Europe/Berlin")).toBe("2026-07-15T07:00:00.000Z");
    expect(instantOfClock("2026-07-15", "09:00", "America/Los_Angeles")).toBe(
      "2026-07-15T16:00:00.000Z",
    );
    expect(instantOfClock("2026-01-15", "09:00", "Pacific/Auckland")).toBe(
      "2026-01-14T20:00:00.000Z",
    );
  });

  test("does not exist in the hour that summer time leaves out", () => {
    expect(instantOfClock("2026-03-29", "02:30", "Europe/Berlin")).toBeNull();
  });

  test("is the first of two in the hour that comes twice", () => {
    expect(instantOfClock("2026-10-25", "02:30", "Europe/Berlin")).toBe("2026-10-25T00:30:00.000Z");
  });

  test("does not exist for what is no day or no time", () => {
    expect(instantOfClock("", "09:00", "UTC")).toBeNull();
    expect(instantOfClock("2026-02-30", "09:00", "UTC")).toBeNull();
    expect(instantOfClock("2026-01-15", "", "UTC")).toBeNull();
  });

  test("reads on the practice's clock as it was typed, in zones of every kind", () => {
    const zones = [
      "UTC",
      "Asia/Kathmandu",
      "Australia/Lord_Howe",
      "America/St_Johns",
      "Pacific/Kiritimati",
    ];
    const day = fc.date({
      min: new Date("2024-01-01"),
      max: new Date("2030-01-01"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(
        day,
        fc.nat(23),
        fc.nat(59),
        fc.constantFrom(...zones),
        (date, hour, minute, zone) => {
          const civilDate = date.toISOString().slice(0, 10);
          const time = `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`;
          const instant = instantOfClock(civilDate, time, zone);
          if (instant === null) return;
          expect(civilDateAt(instant, zone)).toBe(civilDate);
          expect(hourAt(instant, zone)).toBeCloseTo(hour + minute / 60, 6);
        },
      ),
      { numRuns: 60 },
    );
  });
});

test("the next half hour is proposed for an appointment, and never one of tomorrow", () => {
  expect(nextHalfHour("2026-01-15T08:01:00Z", "Europe/Berlin")).toBe("09:30");
  expect(nextHalfHour("2026-01-15T08:00:00Z", "Europe/Berlin")).toBe("09:00");
  expect(nextHalfHour("2026-01-15T23:59:00Z", "UTC")).toBe("23:30");
});
