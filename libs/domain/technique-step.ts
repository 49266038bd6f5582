import type { StepCondition, TechniqueStep, ToothFacts } from "./facts.ts";

type Later =
  | "when"
  | "lightDistanceTenthMm"
  | "thicknessTenthMm"
  | "minFillerPercent"
  | "minModulusGpa";

/** A step as it may be kept: one written before a field existed lacks it. */
export type KeptStep = Omit<TechniqueStep, Later> & Partial<Pick<TechniqueStep, Later>>;

/** A step with every field; what an older version does not say asks nothing. */
export function fillStep(kept: KeptStep): TechniqueStep {
  return {
    when: null,
    lightDistanceTenthMm: null,
    thicknessTenthMm: null,
    minFillerPercent: null,
    minModulusGpa: null,
    ...kept,
  };
}

/**
 * Answers whether a step applies to a tooth: every part of its condition that asks something holds.
 * A tooth without a chosen mode fits no condition on modes. Own rule, no source.
 */
export function appliesTo(
  { when }: { when: StepCondition | null },
  tooth: Omit<ToothFacts, "tooth">,
): boolean {
  if (when === null) return true;
  const fitsMode = when.modes === null || (tooth.mode !== null && when.modes.includes(tooth.mode));
  return (
    fitsMode &&
    (when.provisional === null || when.provisional === tooth.provisional) &&
    (when.undercut === null || when.undercut === tooth.undercut)
  );
}

/** The steps that apply to at least one of the teeth, in the technique's order. */
export function listStepsFor<Step extends { when: StepCondition | null }>(
  steps: readonly Step[],
  teeth: readonly Omit<ToothFacts, "tooth">[],
): readonly Step[] {
  return steps.filter((step) => teeth.some((tooth) => appliesTo(step, tooth)));
}
