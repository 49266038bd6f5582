import { findMisfitOnTeeth } from "../step-fit.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * Dentin is etched under a self-etch product, or nothing is etched under an etch-and-rinse one. A
 * universal product may do either, as the technique says. Source: as `findMisfitOnTeeth`.
 */
export const strategyConflict: Check = {
  code: "strategy-conflict",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { product } = item;
      const misfit = product === null ? null : findMisfitOnTeeth(product, context.etchings);
      if (product === null || product.strategy === null || misfit === null) return null;
      const { reason } = misfit;
      const etchStep = misfit.etching.dentinStep?.name ?? null;
      const technique = context.facts.technique.name;
      const instead = findInstead(context, item);
      return {
        subject: aboutItem(item),
        numbers:
          reason === "etched" && etchStep !== null
            ? { reason, step: etchStep }
            : { reason, technique },
        remedy: {
          code: instead === null ? "change-technique" : "take-instead",
          numbers: nameInstead(instead),
        },
        because: [
          { what: "strategy", value: product.strategy, from: "ifu" },
          etchStep === null
            ? { what: "technique", value: technique, from: "technique" }
            : { what: "etch-step", value: etchStep, from: "technique" },
        ],
        until: null,
      };
    }),
};
