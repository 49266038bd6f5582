import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { assignSteps, listStepsServed } from "./assign-steps.ts";
import {
  aPlainProduct,
  aProduct,
  aStep,
  anItem,
  anUnknownItem,
  bondNorth,
  primerNorth,
} from "./facts.fixture.ts";

const prime = aStep("primer", { accepts: ["primer", "universal-adhesive"] });
const bond = aStep("adhesive", { accepts: ["adhesive", "universal-adhesive"] });
const rinse = aStep("surface-cleaner", { accepts: [] });
const steps = [prime, rinse, bond];
const universal = anItem(aProduct({ id: "universal", kind: "universal-adhesive" }));

describe("assigning items to steps", () => {
  test("an item serves every step that accepts its product's kind", () => {
    expect(listStepsServed(universal, steps)).toEqual([prime, bond]);
    expect(listStepsServed(anItem(primerNorth), steps)).toEqual([prime]);
  });

  test("an item that a person put at a step serves that step alone, whatever its kind", () => {
    expect(listStepsServed({ ...universal, stepKey: bond.key }, steps)).toEqual([bond]);
    expect(listStepsServed(anItem(primerNorth, { stepKey: rinse.key }), steps)).toEqual([rinse]);
    expect(listStepsServed({ ...anUnknownItem("1"), stepKey: prime.key }, steps)).toEqual([prime]);
  });

  test("an item that serves no step is told apart", () => {
    const cement = anItem(aPlainProduct("provisional-cement"));
    const lost = anItem(bondNorth, { stepKey: "of-another-technique" });
    const unknown = anUnknownItem("1");
    const result = assignSteps(steps, [cement, universal, lost, unknown]);
    expect(result.unplaced).toEqual([cement, lost, unknown]);
    expect(result.steps).toEqual([
      { step: prime, items: [universal] },
      { step: rinse, items: [] },
      { step: bond, items: [universal] },
    ]);
  });

  test("two containers at one step keep the order in which they are given", () => {
    const first = anItem(bondNorth, { id: "z" });
    const second = anItem(bondNorth, { id: "a" });
    expect(assignSteps(steps, [first, second]).steps[2]?.items).toEqual([first, second]);
  });

  test("every item is at a step or unplaced, and never both", () => {
    const product = fc.constantFrom(primerNorth, bondNorth, aPlainProduct("composite"), null);
    const key = fc.constantFrom(null, ...steps.map((step) => step.key), "none");
    const items = fc.array(fc.tuple(product, key), { maxLength: 12 }).map((drawn) =>
      drawn.map(([one, stepKey], index) => ({
        ...anUnknownItem("1"),
        id: `i${index}`,
        product: one,
        stepKey,
      })),
    );
    fc.assert(
      fc.property(items, (all) => {
        const result = assignSteps(steps, all);
        const placed = new Set(result.steps.flatMap((one) => one.items));
        expect(placed.size + result.unplaced.length).toBe(all.length);
        expect(result.unplaced.some((item) => placed.has(item))).toBe(false);
      }),
    );
  });
});
