import { daysBetween } from "../civil-date.ts";
import { computeUseByEnd } from "../effective-end.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The use-by date lies before the day of the check; one of month precision ends with its month. Of
 * a container never received, the date on its label counts. Source: ISO 15223-1 5.1.4, "not to be
 * used after the date" (from memory).
 */
export const pastUseBy: Check = {
  code: "past-use-by",
  level: "stop",
  fixed: true,
  run: (context) =>
    checkItems(context, (item) => {
      const { container, facts } = item;
      const stored = container?.useBy ?? null;
      const labelled = container === null ? facts.scanned.useBy : null;
      const useBy = stored === null ? labelled : computeUseByEnd(stored);
      if (useBy === null || useBy >= context.today) return null;
      return {
        subject: aboutItem(item),
        numbers: { useBy, today: context.today, daysPast: daysBetween(useBy, context.today) },
        remedy: { code: "discard", numbers: nameInstead(findInstead(context, item)) },
        because: [
          { what: "use-by", value: useBy, from: "label" },
          { what: "today", value: context.today, from: "reading" },
        ],
        until: null,
      };
    }),
};
