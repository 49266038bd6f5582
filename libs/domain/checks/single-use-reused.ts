import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/**
 * A container whose IFU allows one patient has already served another. Source: ISO 15223-1 5.4.2,
 * "do not re-use" (from memory).
 */
export const singleUseReused: Check = {
  code: "single-use-reused",
  level: "stop",
  fixed: true,
  run: (context) =>
    checkItems(context, (item) => {
      const { usedForOtherOn } = item.facts;
      if (usedForOtherOn === null || item.product?.singleUse !== true) return null;
      return {
        subject: aboutItem(item),
        numbers: { usedOn: usedForOtherOn },
        remedy: takeInstead(context, item),
        because: [{ what: "used-for-other", value: usedForOtherOn, from: "stock" }],
        until: null,
      };
    }),
};
