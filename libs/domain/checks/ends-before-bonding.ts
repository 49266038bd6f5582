import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * A product that the bonding visit takes, too, is good for this appointment but ends before that
 * visit. Source: as `computeEffectiveEnd`; that a bottle serves both visits is common practice, no
 * source.
 */
export const endsBeforeBonding: Check = {
  code: "ends-before-bonding",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { bonding } = context.facts;
      const { product, end } = item;
      if (bonding === null || product === null || end === null) return null;
      if (!bonding.accepts.includes(product.kind)) return null;
      if (end.date < context.lastDay || end.date >= bonding.on) return null;
      const instead = findInstead(
        context,
        item,
        (one) => one.end === null || one.end.date >= bonding.on,
      );
      return {
        subject: aboutItem(item),
        numbers: { reason: end.decidedBy, end: end.date, bonding: bonding.on },
        remedy: {
          code: instead === null ? "get-another" : "take-instead",
          numbers: nameInstead(instead),
        },
        because: [
          { what: "usable-through", value: end.date, from: "stock" },
          { what: "bonding-visit", value: bonding.on, from: "practice" },
        ],
        until: null,
      };
    }),
};
