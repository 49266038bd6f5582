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

  test("share a container's line whatever its product is called by now", () => {
    const line = (productName: string, containerId: string | null) => ({
      ...material("m", "L1"),
      productName,
      containerId,
    });
    const shared = (containerId: string | null) =>
      compareVersions(
        version([], [line("Old", containerId)]),
        version([], [line("New", containerId)]),
      )[0].materials.map(({ isShared }) => isShared);
    expect(shared("c")).toEqual([true]);
    expect(shared(null)).toEqual([false]);
  });

  test("tell another seal of a bonding, or none", () => {
    const bonding = (seal: string | null) =>
      ({
        ...version([], []),
        visit: "bonding",
        seal: seal && { id: seal },
      }) as AnswerOf<"getRecord">;
    const shared = (one: string | null, other: string | null) =>
      compareVersions(bonding(one), bonding(other))[1].seals.map(({ isShared }) => isShared);
    expect(shared("s", "s")).toEqual([true]);
    expect(shared("s", "z")).toEqual([false]);
    expect(shared("s", null)).toEqual([false]);
  });

  test("count what stands there twice", () => {
    const twice = version([event(1, "a"), event(2, "a")], []);
    const once = version([event(1, "a")], []);
    const [old] = compareVersions(twice, once);
    expect(old.events.map(({ isShared }) => isShared)).toEqual([true, false]);
  });
});
