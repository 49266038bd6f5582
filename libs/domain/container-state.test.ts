import { describe, expect, test } from "@jest/globals";
import { computeContainerState, isUsableOn } from "./container-state.ts";
import { aContainer, operatoryOne, quarantine } from "./facts.fixture.ts";
import { containerStates, locationKinds, shelfKinds } from "./vocabulary.ts";

describe("container state", () => {
  test.each([
    ["quarantine", "quarantined"],
    ["used", "empty"],
    ["discarded", "discarded"],
    ["returned", "returned"],
    ["lost", "lost"],
    ["count-difference", "lost"],
  ] as const)("at %s it is %s, opened or not", (place, state) => {
    expect(computeContainerState(place, null)).toBe(state);
    expect(computeContainerState(place, "2026-11-01")).toBe(state);
  });

  test.each(["store", "refrigerator", "operatory", "supplier"] as const)(
    "at %s opening decides",
    (place) => {
      expect(computeContainerState(place, null)).toBe("sealed");
      expect(computeContainerState(place, "2026-11-01")).toBe("open");
    },
  );
});

describe("a container that can be taken", () => {
  const end = { date: "2026-12-02", decidedBy: "use-by" as const };

  test("is usable through its last day", () => {
    const container = aContainer();
    expect(isUsableOn(container, end, "2026-12-02")).toBe(true);
    expect(isUsableOn(container, end, "2026-12-03")).toBe(false);
    expect(isUsableOn(container, null, "2099-01-01")).toBe(true);
  });

  test("is sealed or open, on a shelf of the practice outside quarantine", () => {
    const usable = containerStates.filter((state) =>
      isUsableOn(aContainer({ state }), end, "2026-12-01"),
    );
    expect(usable).toEqual(["sealed", "open"]);
    const places = locationKinds.filter((kind) =>
      isUsableOn(aContainer({ place: { ...operatoryOne, kind } }), end, "2026-12-01"),
    );
    expect(places).toEqual(shelfKinds.filter((kind) => kind !== quarantine.kind));
  });
});
