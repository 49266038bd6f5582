import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * No dentist has compared the catalogue entry with the product's IFU, so every other check of it
 * stands on unconfirmed figures. Own rule, no source.
 */
export const unconfirmed: Check = {
  code: "unconfirmed",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { product } = item;
      if (product === null || product.confirmed) return null;
      return {
        subject: aboutItem(item),
        numbers: { product: product.name },
        remedy: { code: "confirm-product", numbers: { product: product.name } },
        because: [{ what: "entry", value: product.name, from: "practice" }],
        until: null,
      };
    }),
};
