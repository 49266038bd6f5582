import type { CheckContext } from "../check-context.ts";
import { outputAtTip, plannedCureSeconds } from "../light-plan.ts";
import { aboutLight, aboutStep, type Check, type FindingDraft } from "./check.ts";

/** Caution is due above 1500 to 2000 mW/cm2 with 1 to 5 s: Halifax consensus, 2014. */
const shortSeconds = 5;

function findOutput(context: CheckContext): readonly FindingDraft[] {
  const { light, settings } = context.facts;
  const output = outputAtTip(light);
  const step = context.steps.find((one) => plannedCureSeconds(one.step, one.items) > 0)?.step;
  if (light === null || output === null || step === undefined) return [];
  const ceiling = settings.lightCeilingMwCm2;
  if (output <= ceiling) return [];
  return [
    {
      subject: aboutLight(light, step),
      numbers: { reason: "output", output, ceiling },
      remedy: { code: "change-light", numbers: { light: light.name } },
      because: [
        { what: "irradiance", value: output, from: "light" },
        { what: "light-ceiling", value: ceiling, from: "practice" },
      ],
      until: null,
    },
  ];
}

function findShort(context: CheckContext): readonly FindingDraft[] {
  return context.steps.flatMap(({ step, items }): FindingDraft[] => {
    const seconds = plannedCureSeconds(step, items);
    if (seconds === 0 || seconds >= shortSeconds) return [];
    return [
      {
        subject: aboutStep(step),
        numbers: { reason: "short", seconds, limit: shortSeconds },
        remedy: { code: "cure-longer", numbers: { enoughSeconds: shortSeconds, step: step.name } },
        because: [{ what: "planned-cure", value: seconds, from: "technique" }],
        until: null,
      },
    ];
  });
}

/**
 * A light's output is above the practice's ceiling, or a cure is shorter than five seconds: the
 * product of both may hold while the cure does not. Source: Halifax consensus statement, 2014; that
 * reciprocity fails at the extremes is from memory.
 */
export const exposureExtreme: Check = {
  code: "exposure-extreme",
  level: "caution",
  fixed: false,
  run: (context) => [...findOutput(context), ...findShort(context)],
};
