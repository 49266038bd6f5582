import type { ProductFacts, TechniqueStep } from "./facts.ts";

type Part = "applicationSeconds" | "airDrySeconds" | "cureSeconds";

/** How long a timed part of a step runs, in whole seconds, and who asks for that much. */
export interface PlannedSeconds {
  seconds: number;
  from: "ifu" | "technique";
}

/**
 * The time for one part of a step: the longest of what the technique plans and what the
 * instructions for use of the products at the step ask for. The technique is named where both ask
 * the same. `null` where neither times that part. Source: the product's IFU; that the longer time
 * holds is common practice, no source.
 */
export function planSeconds(
  step: TechniqueStep,
  products: readonly ProductFacts[],
  part: Part,
): PlannedSeconds | null {
  const technique = step[part];
  let ifu = 0;
  for (const product of products) ifu = Math.max(ifu, product[part] ?? 0);
  if (technique === null && ifu === 0) return null;
  return ifu > (technique ?? 0)
    ? { seconds: ifu, from: "ifu" }
    : { seconds: technique ?? 0, from: "technique" };
}
