import { listCandidates, nameInstead } from "../suggest.ts";
import { aboutStep, type Check } from "./check.ts";

/**
 * A required step that uses a material has no container. One that has an unfit container is not
 * missing: what is wrong with it is said by its own finding. Own rule, no source.
 */
export const missing: Check = {
  code: "missing",
  level: "stop",
  fixed: false,
  run: (context) =>
    context.steps.flatMap(({ step, items }) => {
      if (!step.required || step.accepts.length === 0 || items.length > 0) return [];
      const accepts = step.accepts.join(",");
      return {
        subject: aboutStep(step),
        numbers: { accepts },
        remedy: {
          code: "scan-missing",
          numbers: nameInstead(listCandidates(context, [step], null)[0] ?? null),
        },
        because: [{ what: "accepted-kinds", value: accepts, from: "technique" }],
        until: null,
      };
    }),
};
