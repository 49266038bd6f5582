import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The scanned identifier is in no entry of the catalogue, so nothing can be checked. Own rule, no
 * source.
 */
export const unknownProduct: Check = {
  code: "unknown-product",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      if (item.product !== null) return null;
      const { identifier } = item.facts.scanned;
      return {
        subject: aboutItem(item),
        numbers:
          identifier === null ? { reason: "no-identifier" } : { reason: "identifier", identifier },
        remedy: { code: "register-product", numbers: {} },
        because:
          identifier === null ? [] : [{ what: "identifier", value: identifier, from: "label" }],
        until: null,
      };
    }),
};
