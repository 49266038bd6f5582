import { describe, expect, test } from "@jest/globals";
import type { ContainerState } from "#domain";
import { collect, isShelf, listDue } from "./put-away.ts";

const store = { id: "store", name: "Store", kind: "store" as const };
const made = (id: string, state: ContainerState = "sealed", location = store) => ({
  id,
  state,
  location,
});

describe("collecting what is put away", () => {
  const primer = made("primer");
  const gel = made("gel", "open");

  test("adds one after the other, each once", () => {
    const first = collect([], [primer]);
    const second = collect(first.list, [gel]);
    expect(second).toEqual({ outcome: "added", container: gel, list: [primer, gel] });
    const third = collect(second.list, [primer]);
    expect(third).toEqual({ outcome: "again", container: primer, list: [primer, gel] });
  });

  test("takes the one container of a maker's label that can be moved", () => {
    const found = [made("empty", "empty"), gel, made("apart", "quarantined")];
    expect(collect([], found)).toMatchObject({ outcome: "added", list: [gel] });
  });

  test("does not guess which of several it is", () => {
    expect(collect([gel], [primer, made("other")])).toEqual({ outcome: "several", list: [gel] });
    const two = [made("a", "quarantined"), made("b", "quarantined")];
    expect(collect([], two).outcome).toBe("several");
  });

  test("leaves what is in quarantine or gone, and says which it is", () => {
    expect(collect([], [made("a", "quarantined")])).toMatchObject({
      outcome: "quarantined",
      list: [],
    });
    for (const state of ["empty", "discarded", "returned", "lost"] as const) {
      expect(collect([], [made("a", state)])).toMatchObject({ outcome: "gone", list: [] });
    }
    expect(collect([], [])).toEqual({ outcome: "none", list: [] });
  });
});

test("what stands at the place already is not moved", () => {
  const fridge = { id: "fridge", name: "Refrigerator", kind: "store" as const };
  const list = [made("a"), made("b", "open", fridge)];
  expect(listDue(list, "fridge").map(({ id }) => id)).toEqual(["a"]);
  expect(listDue(list, "elsewhere")).toEqual(list);
});

test("things are put away on shelves alone", () => {
  expect(isShelf({ kind: "refrigerator" })).toBe(true);
  for (const kind of ["quarantine", "supplier", "used", "discarded", "lost"] as const) {
    expect([kind, isShelf({ kind })]).toEqual([kind, false]);
  }
});
