import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { clockAt, instantOfClock } from "./clock-time.ts";

const zones = ["Europe/Berlin", "America/New_York", "Asia/Kolkata", "Pacific/Apia", "UTC"];

describe("a clock on the wall of a practice", () => {
  test("shows what Temporal says, and is found again", () => {
    const instants = fc.integer({ min: 946_684_800, max: 4_102_444_800 });
    fc.assert(
      fc.property(instants, fc.constantFrom(...zones), (seconds, zone) => {
        const instant = new Date(seconds * 1000).toISOString();
        const { day, time } = clockAt(instant, zone);
        const wall = Temporal.Instant.from(instant).toZonedDateTimeISO(zone);
        expect(day).toBe(wall.toPlainDate().toString());
        expect(time).toBe(wall.toPlainTime().toString({ smallestUnit: "minute" }));
        const first = wall
          .toPlainDateTime()
          .round({ smallestUnit: "minute", roundingMode: "floor" });
        const expected = first.toZonedDateTime(zone, { disambiguation: "earlier" }).toInstant();
        expect(instantOfClock(day, time, zone)).toBe(
          new Date(expected.epochMilliseconds).toISOString(),
        );
      }),
      { numRuns: 200 },
    );
  });

  // Summer time begins in Germany at 02:00 of 29 March 2026 and ends at 03:00 of 25 October 2026.
  test("leaves an hour out in spring and shows one twice in autumn", () => {
    expect(instantOfClock("2026-03-29", "02:30", "Europe/Berlin")).toBeNull();
    expect(instantOfClock("2026-03-29", "03:00", "Europe/Berlin")).toBe("2026-03-29T01:00:00.000Z");
    expect(instantOfClock("2026-10-25", "02:30", "Europe/Berlin")).toBe("2026-10-25T00:30:00.000Z");
  });

  test.each([
    ["2026-02-30", "10:00"],
    ["2026-02-03", "24:00"],
    ["2026-02-03", "9:00"],
    ["", ""],
    ["tomorrow", "10:00"],
  ])("never shows %j %j", (day, time) => {
    expect(instantOfClock(day, time, "UTC")).toBeNull();
  });
});
