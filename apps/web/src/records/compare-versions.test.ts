import { describe, expect, test } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { compareVersions } from "./compare-versions.ts";

const event = (sequence: number, text: string) => ({
  sequence,
  kind: "note",
  stepKey: null,
  facts: { text },
  occurredAt: "2026-06-15T08:00:00.000Z",
  recordedAt: "2026-06-15T08:00:00.000Z",
  person: "P",
});
const material = (id: string, lot: string) => ({ id, lot, stepKey: "coat" });
const version = (events: object[], materials: object[]) =>
  ({ events, materials }) as unknown as AnswerOf<"getRecord">;

describe("two versions side by side", () => {
  test("share what tells the same, whatever number it has", () => {
    const before = version([event(1, "a"), event(2, "b")], [material("m", "L1")]);
    const after = version([event(1, "b"), event(2, "c")], [material("n", "L1")]);
    const [old, now] = compareVersions(before, after);
    expect(old.events.map(({ isShared }) => isShared)).toEqual([false, true]);
    expect(now.events.map(({ isShared }) => isShared)).toEqual([true, false]);
    expect(old.materials.map(({ isShared }) => isShared)).toEqual([true]);
  });

  test("count what stands there twice", () => {
    const twice = version([event(1, "a"), event(2, "a")], []);
    const once = version([event(1, "a")], []);
    const [old] = compareVersions(twice, once);
    expect(old.events.map(({ isShared }) => isShared)).toEqual([true, false]);
  });
});
