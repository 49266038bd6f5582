import type { TechniqueStep, TrayItemFacts } from "./facts.ts";

/** One step of the technique with the items that serve it. */
export interface StepItems {
  step: TechniqueStep;
  items: readonly TrayItemFacts[];
}

/** Which item serves which steps. */
export interface StepAssignment {
  /** Every step, in the technique's order. */
  steps: readonly StepItems[];
  /** Items that serve no step: of a kind none accepts, of no known product, or misplaced. */
  unplaced: readonly TrayItemFacts[];
}

/**
 * The steps that one item serves, in the technique's order. An item that a person put at a step
 * serves that step alone, whatever its kind (that is for the checks to say); any other serves every
 * step that accepts its product's kind.
 */
export function listStepsServed(
  item: Pick<TrayItemFacts, "stepKey" | "product">,
  steps: readonly TechniqueStep[],
): readonly TechniqueStep[] {
  const { stepKey, product } = item;
  if (stepKey !== null) return steps.filter((step) => step.key === stepKey);
  if (product === null) return [];
  return steps.filter((step) => step.accepts.includes(product.kind));
}

/**
 * Assigns the items of a tray to the steps of its technique: every step with its items in the order
 * given, and the items that serve none. One item may serve several steps (a universal adhesive as
 * primer and as adhesive). Own rule, no source.
 */
export function assignSteps(
  steps: readonly TechniqueStep[],
  items: readonly TrayItemFacts[],
): StepAssignment {
  const served = items.map((item) => ({ item, steps: listStepsServed(item, steps) }));
  return {
    steps: steps.map((step) => ({
      step,
      items: served.filter((one) => one.steps.includes(step)).map((one) => one.item),
    })),
    unplaced: served.filter((one) => one.steps.length === 0).map((one) => one.item),
  };
}
