import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * A drop has waited longer since it was dispensed than the product's IFU allows. Counted from
 * dispensing, not from uncapping: a drop of an acetone-based adhesive lost 1.11 % a second, one of
 * an ethanol-based 0.03 %, while bottles without a lid lost nothing notable in 8 h (Braz Dent J).
 */
export const dropAging: Check = {
  code: "drop-aging",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { dispensedAt } = item.facts;
      const lifeSeconds = item.product?.dropLifeSeconds ?? null;
      if (dispensedAt === null || lifeSeconds === null) return null;
      const ageSeconds = Math.floor((context.atMs - Date.parse(dispensedAt)) / 1000);
      if (ageSeconds <= lifeSeconds) return null;
      return {
        subject: aboutItem(item),
        numbers: { ageSeconds, lifeSeconds },
        remedy: { code: "fresh-drop", numbers: {} },
        because: [
          { what: "drop-age", value: ageSeconds, from: "record" },
          { what: "drop-life", value: lifeSeconds, from: "ifu" },
        ],
        until: null,
      };
    }),
};
