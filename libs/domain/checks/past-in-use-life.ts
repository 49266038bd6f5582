import { computeInUseEnd } from "../effective-end.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The container was opened longer ago than its IFU allows use: opening date and in-use life end
 * before the day of the check. An IFU without an in-use life gives none. Source: the product's IFU.
 */
export const pastInUseLife: Check = {
  code: "past-in-use-life",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const openedOn = item.container?.openedOn ?? null;
      const life = item.product?.inUseLife ?? null;
      // Nothing ends before the earlier of both ends.
      if (item.end === null || item.end.date >= context.today) return null;
      const usableThrough = computeInUseEnd(openedOn, life);
      if (openedOn === null || life === null || usableThrough === null) return null;
      if (usableThrough >= context.today) return null;
      return {
        subject: aboutItem(item),
        numbers: { openedOn, usableThrough, today: context.today },
        remedy: { code: "discard", numbers: nameInstead(findInstead(context, item)) },
        because: [
          { what: "opened-on", value: openedOn, from: "stock" },
          { what: `in-use-life-${life.unit}s`, value: life.count, from: "ifu" },
          { what: "today", value: context.today, from: "reading" },
        ],
        until: null,
      };
    }),
};
