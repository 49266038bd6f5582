import { fillStep, type KeptStep } from "#domain";
import type { TechniqueView } from "#contracts/catalogue";

/** The steps of a technique as the API carries them. */
export const stepViews = (steps: readonly KeptStep[]): TechniqueView["steps"] =>
  steps.map(fillStep).map((step) => ({
    ...step,
    accepts: [...step.accepts],
    solventsAllowed: step.solventsAllowed && [...step.solventsAllowed],
    when: step.when && { ...step.when, modes: step.when.modes && [...step.when.modes] },
  }));
