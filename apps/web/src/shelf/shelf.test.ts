import { describe, expect, test } from "@jest/globals";
import type { Filter } from "../ui/useFilter.ts";
import { askedOf, matchesWords } from "./asked.ts";
import { makeAxis, spreadMarks } from "./shelf-axis.ts";
import { findUndoable } from "./undoable.ts";

const today = "2026-03-01";

describe("the time axis of the shelves", () => {
  const axis = makeAxis(today, ["2026-02-01", "2026-03-11", "2028-03-01", null]);

  test("what is past stands at the left edge, what has no end near the right one", () => {
    expect(axis.place("2026-02-28")).toBe(0);
    expect(axis.place("2020-01-01")).toBe(0);
    expect(axis.place(null)).toBeGreaterThan(axis.place("2028-03-01"));
    expect(axis.place(null)).toBeLessThan(1);
  });

  test("later days stand further right, and today is not past", () => {
    const days = ["2026-03-01", "2026-03-02", "2026-04-01", "2027-03-01", "2028-03-01"];
    const places = days.map(axis.place);
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  test("the first month gets more room than the tenth", () => {
    const width = (from: string, to: string) => axis.place(to) - axis.place(from);
    expect(width("2026-03-01", "2026-04-01")).toBeGreaterThan(
      2 * width("2026-12-01", "2027-01-01"),
    );
  });

  test("its ticks end with the furthest day and reach half a year without any", () => {
    expect(axis.ticks.map(({ months }) => months)).toEqual([0, 1, 3, 6, 12, 24]);
    expect(makeAxis(today, []).ticks.map(({ months }) => months)).toEqual([0, 1, 3, 6]);
  });

  test("marks of one day are set side by side, none beyond the edge", () => {
    const marks = ["a", "b", "c"].map((id) => ({ id, at: 0.5 }));
    expect(spreadMarks(marks, 0.1).map(({ at }) => at.toFixed(1))).toEqual(["0.5", "0.6", "0.7"]);
    expect(
      spreadMarks(
        [
          { id: "a", at: 0.99 },
          { id: "b", at: 1 },
        ],
        0.1,
      )[1]?.at,
    ).toBe(1);
  });
});

describe("what can be undone", () => {
  const received = { id: "1", reverses: null };
  const moved = { id: "2", reverses: null };

  test("is the newest movement that stands", () => {
    expect(findUndoable([])).toBeNull();
    expect(findUndoable([received, moved])).toBe("2");
  });

  test("is the one before, once the newest is undone, and nothing when all are", () => {
    const undone = { id: "3", reverses: "2" };
    expect(findUndoable([received, moved, undone])).toBe("1");
    expect(findUndoable([received, moved, undone, { id: "4", reverses: "1" }])).toBeNull();
  });
});

describe("the filter of the shelf", () => {
  const filterOf = (parts: Record<string, string>): Filter => ({
    get: (name) => parts[name] ?? "",
    set: () => undefined,
  });

  test("asks for what is here, unless a state says otherwise", () => {
    expect(askedOf(filterOf({}))).toEqual({ here: "true", limit: 500 });
    expect(askedOf(filterOf({ state: "open" }))).toMatchObject({ here: "true", state: "open" });
    expect(askedOf(filterOf({ state: "discarded" }))).toEqual({ state: "discarded", limit: 500 });
    expect(askedOf(filterOf({ state: "all", lot: "A1" }))).toEqual({ lot: "A1", limit: 500 });
  });

  test("leaves out a state that nobody knows", () => {
    expect(askedOf(filterOf({ state: "burnt" }))).toEqual({ here: "true", limit: 500 });
  });

  test("finds every word in name, lot, code or serial, with hyphens or without", () => {
    const container = {
      product: { name: "Alder Primer" },
      lot: "AP-2201",
      code: "CM5XVCV",
      serial: null,
    };
    for (const words of ["", "alder", "primer ap-22", "ap2201", "CM5-XVCV alder"]) {
      expect([words, matchesWords(container, words)]).toEqual([words, true]);
    }
    for (const words of ["birch", "alder birch", "CM6"]) {
      expect([words, matchesWords(container, words)]).toEqual([words, false]);
    }
  });
});
