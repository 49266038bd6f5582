import type { Because, ProductFacts, TechniqueStep } from "../facts.ts";
import { findSolventMisfit } from "../step-fit.ts";
import { aboutItem, checkItemsAtSteps, takeInstead, type Check } from "./check.ts";

function listReasons(step: TechniqueStep, product: ProductFacts): readonly Because[] {
  const because: Because[] = [];
  if (product.solvents !== null) {
    because.push({ what: "solvents", value: product.solvents.join(","), from: "ifu" });
  }
  if (step.solventsAllowed !== null) {
    const value = step.solventsAllowed.join(",");
    because.push({ what: "allowed-solvents", value, from: "technique" });
  }
  if (step.solventNeeded !== null) {
    because.push({ what: "needed-solvent", value: step.solventNeeded, from: "technique" });
  }
  return because;
}

/**
 * The product's solvents do not fit what the technique does at this step: one is not among those
 * allowed, the one needed is not in it, or the entry does not state them, so that they cannot be
 * verified. Never absolute: a solvent is wrong for a step, not in itself. Source: as
 * `findSolventMisfit`.
 */
export const wrongSolvent: Check = {
  code: "wrong-solvent",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItemsAtSteps(context, ({ item, product, step }) => {
      const misfit = findSolventMisfit(step, product);
      if (misfit === null) return null;
      const { reason, solvent } = misfit;
      const numbers: Record<string, string> = { reason, step: step.name };
      if (solvent !== null) numbers.solvent = solvent;
      if (reason === "not-allowed") numbers.allowed = step.solventsAllowed?.join(",") ?? "";
      if (reason === "needed") numbers.solvents = product.solvents?.join(",") ?? "";
      return {
        subject: aboutItem(item, step),
        numbers,
        remedy: takeInstead(context, item),
        because: listReasons(step, product),
        until: null,
      };
    }),
};
