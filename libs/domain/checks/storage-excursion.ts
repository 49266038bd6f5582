import { civilDateAt } from "../civil-date.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The container stood in a place while its temperature was out of range, and nobody has settled yet
 * what that means. A caution, or a stop where the product's entry says so. Source: ISO 15223-1
 * 5.3.7, temperature limit; what an excursion does is the product's IFU's to say.
 */
export const storageExcursion: Check = {
  code: "storage-excursion",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { excursions } = item.facts;
      const [first] = [...excursions].sort((a, b) => (a.from < b.from ? -1 : 1));
      if (first === undefined) return null;
      const { timeZone } = context.facts;
      const from = civilDateAt(first.from, timeZone);
      const to = civilDateAt(first.to, timeZone);
      return {
        level: item.product?.excursionLevel ?? "caution",
        subject: aboutItem(item),
        numbers: { reason: from === to ? "day" : "days", place: first.place, from, to },
        remedy: { code: "settle-excursion", numbers: { place: first.place } },
        because: [
          { what: "place", value: first.place, from: "stock" },
          { what: "excursion", value: from, from: "record" },
        ],
        until: null,
      };
    }),
};
