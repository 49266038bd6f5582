import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/**
 * The product's kind is not one that the step accepts at which the container was put; or no step of
 * the technique has a place for it. Own rule, no source.
 */
export const wrongKind: Check = {
  code: "wrong-kind",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { product } = item;
      if (product === null) return null;
      const { kind } = product;
      const step = item.steps.find((one) => !one.accepts.includes(kind));
      if (step === undefined && item.steps.length > 0) return null;
      const technique = context.facts.technique.name;
      return {
        subject: aboutItem(item),
        numbers:
          step === undefined
            ? { reason: "no-step", kind, technique }
            : {
                reason: step.accepts.length === 0 ? "no-material" : "step",
                kind,
                step: step.name,
                accepts: step.accepts.join(","),
              },
        remedy:
          step === undefined
            ? { code: "remove-from-tray", numbers: {} }
            : takeInstead(context, item),
        because: [
          { what: "kind", value: kind, from: "ifu" },
          step === undefined
            ? { what: "technique", value: technique, from: "technique" }
            : { what: "accepted-kinds", value: step.accepts.join(","), from: "technique" },
        ],
        until: null,
      };
    }),
};
