import type { CheckContext } from "../check-context.ts";
import { leavesEugenol } from "../step-fit.ts";
import { aboutItem, checkItems, takeInstead, type Check, type FindingDraft } from "./check.ts";

function findPlanned(context: CheckContext): readonly FindingDraft[] {
  const { technique } = context.facts;
  return checkItems(context, (item) => {
    if (item.product === null || !leavesEugenol(technique, item.product)) return null;
    return {
      subject: aboutItem(item),
      numbers: { reason: "planned" },
      remedy: takeInstead(context, item),
      because: [
        { what: "content", value: "eugenol", from: "ifu" },
        { what: "technique", value: technique.name, from: "technique" },
      ],
      until: null,
    };
  });
}

function findUsed({ facts }: CheckContext): readonly FindingDraft[] {
  return facts.seals.flatMap(({ tooth, sealedOn, provisionalCement }): FindingDraft[] => {
    if (provisionalCement === null) return [];
    const { name: cement, eugenol: hasEugenol } = provisionalCement;
    return [
      {
        level: hasEugenol ? "caution" : "info",
        subject: { type: "tooth", itemId: null, containerId: null, stepKey: null, name: tooth },
        numbers: { reason: hasEugenol ? "used" : "free", tooth, cement, sealedOn },
        remedy: { code: "clean-surface", numbers: { tooth } },
        because: [{ what: "provisional-cement", value: cement, from: "record" }],
        until: null,
      },
    ];
  });
}

/**
 * A provisional cement that contains eugenol is planned on a surface to which the restoration is
 * bonded later, or stood on the seal of a tooth that is bonded now. One without is a note at the
 * bonding visit: the surface needs conditioning all the same. Source: as `leavesEugenol`; a
 * eugenol-free cement still lowered the bond, J Funct Biomater 2026;17(2):98.
 */
export const eugenol: Check = {
  code: "eugenol",
  level: "caution",
  fixed: false,
  run: (context) => [...findPlanned(context), ...findUsed(context)],
};
