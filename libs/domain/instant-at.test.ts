import { expect, test } from "@jest/globals";
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { instantAt } from "./instant-at.ts";

test("an hour on the wall is the instant that an independent calendar gives", () => {
  const zones = ["Europe/Berlin", "America/New_York", "Pacific/Auckland", "Asia/Kolkata", "UTC"];
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 20_000 }),
      // Hours in which no zone here changes its clocks.
      fc.integer({ min: 4, max: 23 }),
      fc.constantFrom(...zones),
      (days, hour, zone) => {
        const date = Temporal.PlainDate.from("2000-01-01").add({ days }).toString();
        const wall = Temporal.PlainDateTime.from(date).with({ hour });
        const expected = wall.toZonedDateTime(zone).epochMilliseconds;
        expect(Date.parse(instantAt(date, hour, zone))).toBe(expected);
      },
    ),
    { numRuns: 500 },
  );
});
