import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  beginPart,
  endRunning,
  listParts,
  nextPart,
  readRun,
  readTimer,
  runningOf,
  totalSeconds,
  type Part,
  type StepTimer,
} from "./timer.ts";

const parts = listParts({
  applicationSeconds: { seconds: 20, from: "ifu" },
  airDrySeconds: { seconds: 10, from: "technique" },
  cureSeconds: null,
});

describe("the parts of a step", () => {
  test("are those that have a time, in the order of the work", () => {
    expect(parts.map(({ kind }) => kind)).toEqual(["apply", "airDry"]);
    const zero = { seconds: 0, from: "ifu" as const };
    expect(listParts({ applicationSeconds: zero, airDrySeconds: null, cureSeconds: null })).toEqual(
      [],
    );
  });

  test("are begun one after another until none is left", () => {
    const first = beginPart(null, { stepKey: "prime", part: "apply", nowMs: 1000 });
    expect(nextPart(parts, null)?.kind).toBe("apply");
    expect(nextPart(parts, first)?.kind).toBe("airDry");
    expect(
      nextPart(parts, beginPart(first, { stepKey: "prime", part: "airDry", nowMs: 22_000 })),
    ).toBeNull();
  });
});

describe("a running part", () => {
  const run = { part: "apply" as const, beganMs: 1000, endedMs: null };
  const part: Part = { kind: "apply", seconds: 20, from: "ifu" };

  test("shows the seconds left, then those over", () => {
    expect(readRun(run, part, 1000)).toEqual({ left: 20, over: 0, fraction: 1 });
    expect(readRun(run, part, 11_000)).toEqual({ left: 10, over: 0, fraction: 0.5 });
    expect(readRun(run, part, 20_999)).toMatchObject({ left: 1, over: 0 });
    expect(readRun(run, part, 21_000)).toEqual({ left: 0, over: 0, fraction: 0 });
    expect(readRun(run, part, 24_500)).toEqual({ left: 0, over: 3, fraction: 0 });
  });

  test("is full again, never more, where the clock was set back", () => {
    expect(readRun(run, part, 0)).toEqual({ left: 20, over: 0, fraction: 1 });
  });

  test("survives being written down and read again", () => {
    const timer = beginPart(beginPart(null, { stepKey: "prime", part: "apply", nowMs: 1000 }), {
      stepKey: "prime",
      part: "airDry",
      nowMs: 22_000,
    });
    expect(readTimer(JSON.stringify(timer))).toEqual(timer);
    expect(runningOf(readTimer(JSON.stringify(timer)))?.part).toBe("airDry");
  });

  test("is not made up from a text that is no timer", () => {
    for (const text of [
      null,
      "",
      "{",
      "null",
      "[]",
      '{"stepKey":1,"runs":[]}',
      '{"stepKey":"a","runs":[{}]}',
    ]) {
      expect(readTimer(text)).toBeNull();
    }
  });
});

describe("the time kept for a step", () => {
  test("is that of all its parts, without the gaps between", () => {
    const applied = endRunning(
      beginPart(null, { stepKey: "prime", part: "apply", nowMs: 0 }),
      21_000,
    );
    const dried = endRunning(
      beginPart(applied, { stepKey: "prime", part: "airDry", nowMs: 60_000 }),
      72_000,
    );
    expect(totalSeconds(dried, 90_000)).toBe(33);
  });

  test("starts afresh at another step", () => {
    const timer = beginPart(beginPart(null, { stepKey: "prime", part: "apply", nowMs: 0 }), {
      stepKey: "bond",
      part: "cure",
      nowMs: 50_000,
    });
    expect(timer.runs).toHaveLength(1);
    expect(totalSeconds(timer, 60_000)).toBe(10);
  });

  test("is never negative and never above what a record takes, whatever the clock does", () => {
    const times = fc.array(fc.integer({ min: -1e9, max: 1e9 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(times, (instants) => {
        const timer = instants.reduce<StepTimer | null>(
          (before, atMs) => beginPart(before, { stepKey: "prime", part: "apply", nowMs: atMs }),
          null,
        );
        const total = totalSeconds(timer!, instants.at(-1)!);
        expect(total).toBeGreaterThanOrEqual(0);
        expect(total).toBeLessThanOrEqual(7200);
      }),
    );
  });
});
