import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondStep,
  primeStep,
} from "../facts.fixture.ts";
import type { ProductFacts, Technique, TechniqueStep } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const oneBottle = (
  over: Partial<ProductFacts>,
  told: { steps?: readonly TechniqueStep[]; visit?: Technique["visit"] } = {},
) =>
  aTray({
    technique: aTechnique({ steps: [bondStep], ...told }),
    items: [anItem(aProduct(over))],
  });

// No advantage with two-step etch-and-rinse (p = 0.07) or one-step self-etch (p = 0.15):
// meta-analysis of 21 papers, PMC8955250.
describe("seal-benefit", () => {
  test.each(["etch-and-rinse", "self-etch"] as const)(
    "notes a simplified %s system",
    (strategy) => {
      expect(getFinding(oneBottle({ strategy }), "seal-benefit")).toMatchObject({
        level: "info",
        numbers: { reason: strategy },
        remedy: { code: "none" },
      });
    },
  );

  test("is silent of a system with a primer of its own, and of a universal adhesive", () => {
    expect(countFindings(oneBottle({}, { steps: [primeStep, bondStep] }), "seal-benefit")).toBe(0);
    expect(countFindings(oneBottle({ strategy: "universal" }), "seal-benefit")).toBe(0);
    const universal = oneBottle(
      { kind: "universal-adhesive" },
      { steps: [aStep("universal-adhesive")] },
    );
    expect(countFindings(universal, "seal-benefit")).toBe(0);
  });

  test("is silent at the bonding visit", () => {
    expect(countFindings(oneBottle({}, { visit: "bonding" }), "seal-benefit")).toBe(0);
  });
});
