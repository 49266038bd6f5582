import type { CheckContext } from "../check-context.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

function hasPrimer({ steps }: CheckContext): boolean {
  return steps.some(
    ({ step, items }) => step.accepts.includes("primer") && (step.required || items.length > 0),
  );
}

/**
 * Immediate sealing is planned with a simplified system: an etch-and-rinse adhesive that is its own
 * primer, or a self-etch one in one step. Source: a meta-analysis of 21 papers found no advantage
 * with these (p = 0.07 and 0.15), PMC8955250; what some makers teach says otherwise.
 */
export const sealBenefit: Check = {
  code: "seal-benefit",
  level: "info",
  fixed: false,
  run: (context) => {
    const { technique } = context.facts;
    if (technique.visit !== "sealing" || hasPrimer(context)) return [];
    return checkItems(context, (item) => {
      const { product } = item;
      const reason = product?.strategy ?? "universal";
      if (product?.kind !== "adhesive" || reason === "universal") return null;
      return {
        subject: aboutItem(item),
        numbers: { reason },
        remedy: { code: "none", numbers: {} },
        because: [
          { what: "strategy", value: reason, from: "ifu" },
          { what: "technique", value: technique.name, from: "technique" },
        ],
        until: null,
      };
    });
  },
};
