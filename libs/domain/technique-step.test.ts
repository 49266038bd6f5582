import { describe, expect, test } from "@jest/globals";
import { aStep } from "./facts.fixture.ts";
import type { StepCondition } from "./facts.ts";
import { appliesTo, fillStep, listStepsFor } from "./technique-step.ts";

const tooth = { mode: "self-etch", provisional: "resin", undercut: false } as const;
const when = (told: Partial<StepCondition>) => ({
  when: { modes: null, provisional: null, undercut: null, ...told },
});

describe("a step of a technique", () => {
  test("without a condition applies to every tooth", () => {
    expect(appliesTo({ when: null }, tooth)).toBe(true);
    expect(appliesTo(when({}), tooth)).toBe(true);
  });

  test.each([
    [when({ modes: ["self-etch", "selective-enamel-etch"] }), true],
    [when({ modes: ["etch-and-rinse"] }), false],
    [when({ provisional: "resin" }), true],
    [when({ provisional: "none" }), false],
    [when({ undercut: false }), true],
    [when({ undercut: true }), false],
    [when({ modes: ["self-etch"], provisional: "other" }), false],
  ])("%j applies: %j", (step, expected) => {
    expect(appliesTo(step, tooth)).toBe(expected);
  });

  test("on a mode applies to no tooth whose mode is not chosen", () => {
    expect(appliesTo(when({ modes: ["self-etch"] }), { ...tooth, mode: null })).toBe(false);
  });

  test("is kept for a visit where one of its teeth needs it", () => {
    const steps = [aStep("primer"), aStep("etchant", when({ modes: ["etch-and-rinse"] }))];
    const etched = { ...tooth, mode: "etch-and-rinse" } as const;
    expect(listStepsFor(steps, [tooth]).map(({ key }) => key)).toEqual(["primer"]);
    expect(listStepsFor(steps, [tooth, etched]).map(({ key }) => key)).toEqual([
      "primer",
      "etchant",
    ]);
  });

  test("of an older version asks nothing that it does not say", () => {
    const { when: _, thicknessTenthMm: _1, minFillerPercent: _2, ...older } = aStep("primer");
    expect(fillStep(older)).toEqual(aStep("primer"));
  });
});
