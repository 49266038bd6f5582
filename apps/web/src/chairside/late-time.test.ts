import { expect, test } from "@jest/globals";
import { lateInstant } from "./late-time.ts";

// Berlin is two hours ahead of UTC in June, one in January.
test.each([
  ["2026-06-13T10:00:00.000Z", "12:04", "2026-06-13T10:04:00.000Z"],
  ["2026-01-13T10:00:00.000Z", "11:04", "2026-01-13T10:04:00.000Z"],
  ["2026-06-13T10:00:41.000Z", "12:00", "2026-06-13T10:00:41.000Z"],
  ["2026-06-13T10:00:41.000Z", "11:59", null],
  ["2026-06-13T10:00:41.000Z", "", null],
  // Late in the evening the day in Berlin is already the next one.
  ["2026-06-13T22:30:00.000Z", "00:45", "2026-06-13T22:45:00.000Z"],
])("begun at %s, a step at %s happened at %s", (startedAt, time, at) => {
  expect(lateInstant(startedAt, time, "Europe/Berlin")).toBe(at);
});
