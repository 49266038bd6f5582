import type { Because } from "../facts.ts";
import { findDryingGap } from "../step-fit.ts";
import { aboutItem, checkItemsAtSteps, type Check } from "./check.ts";

/**
 * The technique dries the product with air for less time than it needs: as its IFU says, or, where
 * that is silent, as the practice says for its slowest solvent. The time must be planned at the
 * step whose product it dries. Source: as `findDryingGap`.
 */
export const dryingTooShort: Check = {
  code: "drying-too-short",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItemsAtSteps(context, ({ item, product, step }) => {
      const gap = findDryingGap(step, product, context.facts.settings.airDrySeconds);
      if (gap === null) return null;
      const { reason, solvent, plannedSeconds, neededSeconds } = gap;
      const because: Because[] = [
        { what: "planned-air-dry", value: plannedSeconds, from: "technique" },
        {
          what: "needed-air-dry",
          value: neededSeconds,
          from: reason === "ifu" ? "ifu" : "practice",
        },
      ];
      if (reason === "solvent" && solvent !== null) {
        because.push({ what: "slowest-solvent", value: solvent, from: "ifu" });
      }
      return {
        subject: aboutItem(item, step),
        numbers: {
          reason,
          step: step.name,
          plannedSeconds,
          neededSeconds,
          ...(solvent !== null && { solvent }),
        },
        remedy: { code: "dry-longer", numbers: { neededSeconds, step: step.name } },
        because,
        until: null,
      };
    }),
};
