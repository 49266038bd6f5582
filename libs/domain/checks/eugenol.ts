import { leavesEugenol } from "../step-fit.ts";
import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/**
 * A provisional cement that contains eugenol is planned on a surface to which the restoration is
 * bonded later. Source: as `leavesEugenol`.
 */
export const eugenol: Check = {
  code: "eugenol",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { technique } = context.facts;
      if (item.product === null || !leavesEugenol(technique, item.product)) return null;
      return {
        subject: aboutItem(item),
        numbers: {},
        remedy: takeInstead(context, item),
        because: [
          { what: "content", value: "eugenol", from: "ifu" },
          { what: "technique", value: technique.name, from: "technique" },
        ],
        until: null,
      };
    }),
};
