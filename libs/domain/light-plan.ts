import type { CheckedItem } from "./check-context.ts";
import type { ProductFacts, TechniqueStep, TrayFacts } from "./facts.ts";
import {
  computeRadiantExposure,
  irradianceAtDistance,
  secondsForExposure,
  type LightAtDistance,
} from "./light-output.ts";
import { planSeconds } from "./planned-seconds.ts";

/** How long a step cures what stands at it: the longest of technique and IFU; 0 for no light. */
export function plannedCureSeconds(step: TechniqueStep, items: readonly CheckedItem[]): number {
  const products = items.flatMap(({ product }) => product ?? []);
  return planSeconds(step, products, "cureSeconds")?.seconds ?? 0;
}

/** What a light gives at its tip, in mW/cm2; `null` where nothing was measured there. */
export function outputAtTip(light: TrayFacts["light"]): number | null {
  const tip = light?.table.find(({ distanceTenthMm }) => distanceTenthMm === 0);
  return tip?.irradianceMwPerCm2 ?? null;
}

/** A cure as it is planned for a product. Seconds; millijoules per square centimetre. */
export interface PlannedCure {
  seconds: number;
  distanceTenthMm: number;
  at: LightAtDistance;
  givenMjPerCm2: number;
  neededMjPerCm2: number;
  /** The whole seconds that would do; `null` where the light gives nothing. */
  enoughSeconds: number | null;
}

/**
 * The cure that a step plans for a product with a light, by that light's own table at the planned
 * distance. `null` where the IFU asks for no radiant exposure, the step plans no light, or the
 * light was never measured. Source: H = E t, FDI policy statement on intraoral light curing, 2021.
 */
export function planCure(
  step: TechniqueStep,
  product: ProductFacts,
  light: TrayFacts["light"],
): PlannedCure | null {
  const seconds = planSeconds(step, [product], "cureSeconds")?.seconds ?? 0;
  if (product.radiantExposureJCm2 === null || seconds === 0 || light === null) return null;
  const distanceTenthMm = step.lightDistanceTenthMm ?? 0;
  const at = irradianceAtDistance(light.table, distanceTenthMm);
  if (at === null) return null;
  const neededMjPerCm2 = Math.round(product.radiantExposureJCm2 * 1000);
  return {
    seconds,
    distanceTenthMm,
    at,
    givenMjPerCm2: computeRadiantExposure(at.irradianceMwPerCm2, seconds),
    neededMjPerCm2,
    enoughSeconds: secondsForExposure(neededMjPerCm2, at.irradianceMwPerCm2),
  };
}
