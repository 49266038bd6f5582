import type { TechniqueView } from "#contracts/catalogue";
import type { Technique } from "#domain";

/** The steps of a technique as the API carries them. */
export const stepViews = (steps: Technique["steps"]): TechniqueView["steps"] =>
  steps.map((step) => ({
    ...step,
    accepts: [...step.accepts],
    solventsAllowed: step.solventsAllowed && [...step.solventsAllowed],
  }));
