import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * An open withdrawal covers this container, by lot, serial, product or use-by range. Source: a
 * consignee stops use at once, 21 CFR 7.49 (from memory).
 */
export const withdrawn: Check = {
  code: "withdrawn",
  level: "stop",
  fixed: true,
  run: (context) =>
    checkItems(context, (item) => {
      if (item.facts.withdrawals.length === 0) return null;
      const references = item.facts.withdrawals.map((one) => one.reference).sort();
      return {
        subject: aboutItem(item),
        numbers: {
          references: references.join(", "),
          lot: item.container?.lot ?? item.facts.scanned.lot ?? "?",
        },
        remedy: { code: "quarantine", numbers: nameInstead(findInstead(context, item)) },
        because: references.map((value) => ({ what: "withdrawal", value, from: "withdrawal" })),
        until: null,
      };
    }),
};
