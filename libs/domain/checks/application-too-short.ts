import { isAppliedLongEnough } from "../step-fit.ts";
import { aboutItem, checkItemsAtSteps, type Check } from "./check.ts";

/**
 * The technique leaves the product on the tooth, or has it rubbed in, for less time than its IFU
 * asks for. Source: as `isAppliedLongEnough`.
 */
export const applicationTooShort: Check = {
  code: "application-too-short",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItemsAtSteps(context, ({ item, product, step }) => {
      if (isAppliedLongEnough(step, product)) return null;
      const plannedSeconds = step.applicationSeconds ?? 0;
      const neededSeconds = product.applicationSeconds ?? 0;
      const numbers = { step: step.name, plannedSeconds, neededSeconds };
      return {
        subject: aboutItem(item, step),
        numbers,
        remedy: { code: "apply-longer", numbers: { neededSeconds, step: step.name } },
        because: [
          { what: "planned-application", value: plannedSeconds, from: "technique" },
          { what: "needed-application", value: neededSeconds, from: "ifu" },
        ],
        until: null,
      };
    }),
};
