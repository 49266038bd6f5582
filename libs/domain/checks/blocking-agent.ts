import type { CheckContext } from "../check-context.ts";
import { listCandidates, nameInstead } from "../suggest.ts";
import { appliesTo } from "../technique-step.ts";
import { aboutItem, aboutStep, takeInstead, type Check, type FindingDraft } from "./check.ts";

function findOtherBarriers(context: CheckContext): readonly FindingDraft[] {
  return context.steps
    .filter(({ step }) => step.accepts.includes("glycerin-gel"))
    .flatMap(({ step, items }) =>
      items.flatMap((item): FindingDraft[] => {
        if (item.product === null || item.product.kind === "glycerin-gel") return [];
        const { kind } = item.product;
        return [
          {
            level: "stop",
            subject: aboutItem(item, step),
            numbers: { reason: "no-glycerin", kind, step: step.name },
            remedy: takeInstead(context, item),
            because: [{ what: "kind", value: kind, from: "ifu" }],
            until: null,
          },
        ];
      }),
    );
}

/** Where the step is required and empty, `missing` says so already. */
function findUnseparated(context: CheckContext): readonly FindingDraft[] {
  const { facts } = context;
  if (facts.technique.visit !== "sealing") return [];
  const separating = context.steps.filter(({ step }) => step.accepts.includes("separating-agent"));
  return facts.teeth
    .filter(({ provisional }) => provisional === "resin")
    .flatMap((tooth): FindingDraft[] => {
      const at = separating.filter(({ step }) => appliesTo(step, tooth));
      if (at.some(({ step, items }) => items.length > 0 || step.required)) return [];
      const step = at[0]?.step;
      const candidate =
        step === undefined ? null : (listCandidates(context, [step], null)[0] ?? null);
      const subject = step === undefined ? null : aboutStep(step);
      return [
        {
          subject: {
            ...(subject ?? { itemId: null, containerId: null, stepKey: null }),
            type: "tooth",
            name: tooth.tooth,
          },
          numbers: { reason: "no-separator", tooth: tooth.tooth },
          remedy: { code: "add-separator", numbers: nameInstead(candidate) },
          because: [{ what: "resin-provisional", value: tooth.tooth, from: "record" }],
          until: null,
        },
      ];
    });
}

/**
 * What is to keep oxygen or the provisional away does not: something other than glycerin gel at the
 * glycerin step (a stop), or no separating agent under a resin-based provisional (a caution).
 * Source: without an air-block all impressions were faulty, IJCPD 2019;12:288-292, and glycerin
 * kept seal and impression apart, Eur J Dent 2014;8:366-372; a resin provisional sticks to the
 * seal, KSDM timing study.
 */
export const blockingAgent: Check = {
  code: "blocking-agent",
  level: "caution",
  fixed: false,
  run: (context) => [...findOtherBarriers(context), ...findUnseparated(context)],
};
