import { aboutItem, type Check } from "./check.ts";

/**
 * After this visit fewer uses of a product are left than the practice reorders at. One use a tooth,
 * common practice, no source.
 */
export const lowAfterThis: Check = {
  code: "low-after-this",
  level: "info",
  fixed: false,
  run: ({ items, facts }) => {
    const told = new Set<string>();
    return items.flatMap((item) => {
      const { product, facts: fact } = item;
      if (product === null || fact.stock === null || told.has(product.id)) return [];
      told.add(product.id);
      const { usesLeft, reorderUses } = fact.stock;
      const left = Math.max(0, usesLeft - facts.teeth.length);
      if (left >= reorderUses) return [];
      return [
        {
          subject: aboutItem(item),
          numbers: { product: product.name, left, reorderUses },
          remedy: { code: "reorder", numbers: { product: product.name } },
          because: [
            { what: "uses-left", value: usesLeft, from: "stock" },
            { what: "reorder-uses", value: reorderUses, from: "practice" },
          ],
          until: null,
        },
      ];
    });
  },
};
