import type { ProductFacts, TechniqueStep } from "../facts.ts";
import { aboutItem, checkItemsAtSteps, takeInstead, type Check } from "./check.ts";

interface Shortfall {
  reason: "filler" | "filler-not-stated" | "modulus" | "modulus-not-stated";
  needed: number;
  held: number | null;
}

function findShortfall(step: TechniqueStep, product: ProductFacts): Shortfall | null {
  const { minFillerPercent: filler, minModulusGpa: modulus } = step;
  const { fillerPercent, modulusGpa } = product;
  if (filler !== null && (fillerPercent === null || fillerPercent < filler)) {
    const reason = fillerPercent === null ? "filler-not-stated" : "filler";
    return { reason, needed: filler, held: fillerPercent };
  }
  if (modulus !== null && (modulusGpa === null || modulusGpa < modulus)) {
    const reason = modulusGpa === null ? "modulus-not-stated" : "modulus";
    return { reason, needed: modulus, held: modulusGpa };
  }
  return null;
}

/**
 * The material of a coat has less filler (percent by weight) or a lower modulus of elasticity (GPa)
 * than the technique asks, or its entry does not state it. Source: a flowable coat reinforces
 * unfilled or lightly filled adhesives, de Carvalho et al., JERD 2021; the limit is the
 * technique's.
 */
export const modulusOrFillerLow: Check = {
  code: "modulus-or-filler-low",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItemsAtSteps(context, ({ item, product, step }) => {
      const short = findShortfall(step, product);
      if (short === null) return null;
      const { reason, needed, held } = short;
      const what = reason.startsWith("filler") ? "filler" : "modulus";
      return {
        subject: aboutItem(item, step),
        numbers: { reason, needed, ...(held !== null && { held }) },
        remedy: takeInstead(context, item),
        because: [
          ...(held === null ? [] : [{ what, value: held, from: "ifu" as const }]),
          { what: `${what}-needed`, value: needed, from: "technique" },
        ],
        until: null,
      };
    }),
};
