import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  listParts,
  litSeconds,
  nextPart,
  readRun,
  readRuns,
  runningOf,
  shownPart,
  totalSeconds,
  type RecordEvent,
} from "./timer.ts";

const parts = listParts({
  applicationSeconds: { seconds: 20, from: "ifu" },
  airDrySeconds: { seconds: 10, from: "technique" },
  cureSeconds: null,
});

const event = (kind: string, atMs: number, facts: object = {}): RecordEvent => ({
  sequence: atMs,
  kind,
  stepKey: "prime",
  facts: { ...facts },
  occurredAt: new Date(atMs).toISOString(),
  recordedAt: new Date(atMs).toISOString(),
  person: "P",
});
const begun = (part: string, atMs: number, seconds = 20): RecordEvent =>
  event("part-started", atMs, { part, seconds });

describe("the parts of a step", () => {
  test("are those that have a time, in the order of the work", () => {
    expect(parts.map(({ kind }) => kind)).toEqual(["application", "air-dry"]);
    const zero = { seconds: 0, from: "ifu" as const };
    expect(listParts({ applicationSeconds: zero, airDrySeconds: null, cureSeconds: null })).toEqual(
      [],
    );
  });

  test("are begun one after another until none is left", () => {
    const first = readRuns([begun("application", 1000)], "prime");
    const second = readRuns([begun("application", 1000), begun("air-dry", 22_000, 10)], "prime");
    expect(nextPart(parts, [])?.kind).toBe("application");
    expect(nextPart(parts, first)?.kind).toBe("air-dry");
    expect(nextPart(parts, second)).toBeNull();
  });

  test("are read of their own step alone, and afresh once it was done", () => {
    const told = [begun("application", 0), event("step-done", 9000)];
    expect(readRuns(told, "prime")).toEqual([]);
    expect(readRuns([begun("application", 0)], "bond")).toEqual([]);
    expect(readRuns([...told, begun("application", 20_000)], "prime")).toHaveLength(1);
  });

  test("end where the next begins or where the cure is noted", () => {
    const told = [begun("application", 0), begun("cure", 5000, 10)];
    expect(readRuns(told, "prime")[0]?.endedMs).toBe(5000);
    const cured = readRuns([...told, event("cure", 16_000)], "prime");
    expect(cured[1]?.endedMs).toBe(16_000);
    expect(runningOf(cured)).toBeNull();
  });

  test("are not made up from what names no part", () => {
    expect(readRuns([event("part-started", 0, { part: "tea", seconds: 1 })], "prime")).toEqual([]);
  });
});

describe("the part that is shown", () => {
  test("is the one that runs, else the next one, else the last", () => {
    expect(shownPart(parts, [])?.kind).toBe("application");
    const told = [begun("application", 0)];
    expect(shownPart(parts, readRuns(told, "prime"))?.kind).toBe("application");
    const both = [...told, begun("air-dry", 22_000, 10)];
    expect(shownPart(parts, readRuns(both, "prime"))).toEqual(parts[1]);
    expect(shownPart([], [])).toBeNull();
  });

  test("keeps the time that it was begun with, and says that the light asked for it", () => {
    const runs = readRuns([begun("application", 0, 35)], "prime");
    expect(shownPart(parts, runs)).toEqual({ kind: "application", seconds: 35, from: "exposure" });
  });
});

describe("a running part", () => {
  const run = { part: "application" as const, seconds: 20, beganMs: 1000, endedMs: null };

  test("shows the seconds left, then those over", () => {
    expect(readRun(run, 1000)).toEqual({ left: 20, over: 0, fraction: 1 });
    expect(readRun(run, 11_000)).toEqual({ left: 10, over: 0, fraction: 0.5 });
    expect(readRun(run, 20_999)).toMatchObject({ left: 1, over: 0 });
    expect(readRun(run, 21_000)).toEqual({ left: 0, over: 0, fraction: 0 });
    expect(readRun(run, 24_500)).toEqual({ left: 0, over: 3, fraction: 0 });
  });

  test("is full again, never more, where the clock was set back", () => {
    expect(readRun(run, 0)).toEqual({ left: 20, over: 0, fraction: 1 });
  });

  test("counts as light no longer than it was set, and in whole seconds", () => {
    expect(litSeconds(run, 10_900)).toBe(9);
    expect(litSeconds(run, 11_000)).toBe(10);
    expect(litSeconds(run, 60_000)).toBe(20);
    expect(litSeconds(run, 0)).toBe(0);
  });
});

describe("the time kept for a step", () => {
  test("is that of all its parts, without the gap after a cure", () => {
    const told = [begun("cure", 0), event("cure", 21_000), begun("air-dry", 60_000)];
    expect(totalSeconds(readRuns(told, "prime"), 72_000)).toBe(33);
  });

  test("is never negative and never above what a record takes, whatever the clock does", () => {
    const times = fc.array(fc.integer({ min: 0, max: 1e9 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(times, (instants) => {
        const runs = readRuns(
          instants.map((atMs) => begun("application", atMs)),
          "prime",
        );
        const total = totalSeconds(runs, instants.at(-1)!);
        expect(runs).toHaveLength(instants.length);
        expect(total).toBeGreaterThanOrEqual(0);
        expect(total).toBeLessThanOrEqual(7200);
      }),
    );
  });
});
