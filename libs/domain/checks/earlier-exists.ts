import type { Candidate, CheckContext, CheckedItem } from "../check-context.ts";
import { addDays } from "../civil-date.ts";
import { isUsableOn } from "../container-state.ts";
import { compareByUse, nameInstead, rankCandidates } from "../suggest.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

function findBetter(context: CheckContext, item: CheckedItem): Candidate | null {
  const { product, container, end, facts } = item;
  if (product === null || container === null || facts.onOtherTray !== null) return null;
  if (facts.withdrawals.length > 0 || !isUsableOn(container, end, context.lastDay)) return null;
  const better = context
    .listShelfOf(product.id)
    .filter((one) => compareByUse(one, { container, end }) < 0);
  return rankCandidates(better, context.facts.place)[0] ?? null;
}

/**
 * Another usable container of the same product should be used up first: it ends earlier, or on the
 * same day and is open already while this one is sealed. Said only of a container that could be
 * used itself. Source: first expired first out, common practice, no source.
 */
export const earlierExists: Check = {
  code: "earlier-exists",
  level: "info",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const better = findBetter(context, item);
      if (better === null) return null;
      const end = item.end?.date ?? null;
      const earlier = better.end !== null && better.end.date !== end;
      const named = nameInstead(better);
      return {
        subject: aboutItem(item),
        numbers: {
          ...named,
          reason: earlier ? (end === null ? "earlier-than-none" : "earlier") : "open",
          ...(end !== null && { end }),
          ...(better.end !== null && { insteadEnd: better.end.date }),
        },
        remedy: { code: "take-instead", numbers: named },
        because: [
          ...(better.end === null
            ? []
            : [{ what: "other-end", value: better.end.date, from: "stock" as const }]),
          ...(end === null ? [] : [{ what: "this-end", value: end, from: "stock" as const }]),
        ],
        until: better.end === null ? null : addDays(better.end.date, 1),
      };
    }),
};
