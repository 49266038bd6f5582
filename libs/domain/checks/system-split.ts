import type { CheckContext, CheckedItem } from "../check-context.ts";
import { hasPartners, isOfOtherSystem, mustShareSystem } from "../step-fit.ts";
import { findInstead, nameInstead } from "../suggest.ts";
import { aboutItem, type Check, type FindingDraft } from "./check.ts";

function describeSplit(
  context: CheckContext,
  part: CheckedItem,
  partner: CheckedItem,
): FindingDraft {
  const system = part.product?.system?.name ?? null;
  const otherSystem = partner.product?.system?.name ?? null;
  const instead = findInstead(context, partner) ?? findInstead(context, part);
  return {
    subject: aboutItem(part),
    numbers: {
      reason: system === null ? "part-without" : otherSystem === null ? "other-without" : "differ",
      other: partner.name,
      ...(system !== null && { system }),
      ...(otherSystem !== null && { otherSystem }),
    },
    remedy: { code: "pair-from-one-system", numbers: nameInstead(instead) },
    because: [system, otherSystem].flatMap((value) =>
      value === null ? [] : [{ what: "system", value, from: "ifu" as const }],
    ),
    until: null,
  };
}

/**
 * A primer and an adhesive, or an activator and its resin, that come from different systems; a
 * part of a system beside one of no stated system counts as such. Of two without a system nothing
 * is known and nothing is said. Every pair on the tray is compared. Source: as `mustShareSystem`.
 */
export const systemSplit: Check = {
  code: "system-split",
  level: "stop",
  fixed: false,
  run: (context) =>
    context.items.flatMap((part) => {
      const { product } = part;
      if (product === null || !hasPartners(product)) return [];
      return context.items.flatMap((partner) => {
        if (partner.product === null || !mustShareSystem(product, partner.product)) return [];
        if (!isOfOtherSystem(product, partner.product)) return [];
        return describeSplit(context, part, partner);
      });
    }),
};
