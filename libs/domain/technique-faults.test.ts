import { describe, expect, test } from "@jest/globals";
import { aStep, etchStep } from "./facts.fixture.ts";
import type { TechniqueStep } from "./facts.ts";
import { readTechniqueFaults } from "./technique-faults.ts";

const when = { modes: null, provisional: null, undercut: null };

describe("the steps of a technique", () => {
  test("in order have no fault", () => {
    expect(readTechniqueFaults([etchStep, aStep("primer"), aStep("adhesive")])).toEqual([]);
  });

  test("are at least one", () => {
    expect(readTechniqueFaults([])).toEqual([{ path: "/steps", fault: "no-steps" }]);
  });

  test("have each a key of its own", () => {
    expect(readTechniqueFaults([aStep("primer"), aStep("primer")])).toEqual([
      { path: "/steps/1/key", fault: "key-twice" },
    ]);
  });

  test.each<[string, Partial<TechniqueStep>, string]>([
    [
      "solventNeeded",
      { solventNeeded: "water", solventsAllowed: ["ethanol"] },
      "solvent-not-allowed",
    ],
    ["etchesDentin", { etchesDentin: true }, "etches-without-etchant"],
    ["when/modes", { when: { ...when, modes: [] } }, "no-mode"],
    ["thicknessTenthMm", { thicknessTenthMm: { min: 5, max: 4 } }, "range-turned"],
    ["minFillerPercent", { minModulusGpa: 5 }, "coat-without-resin"],
  ])("say of %s what contradicts itself", (field, over, fault) => {
    expect(readTechniqueFaults([aStep("primer", over)])).toEqual([
      { path: `/steps/0/${field}`, fault },
    ]);
  });

  test("may ask of a flowable what they ask of no primer, and allow a range of one value", () => {
    const coat = aStep("flowable", { minFillerPercent: 60, thicknessTenthMm: { min: 5, max: 5 } });
    expect(readTechniqueFaults([coat])).toEqual([]);
  });
});
