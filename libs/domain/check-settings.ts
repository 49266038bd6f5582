import { allChecks } from "./checks/all-checks.ts";
import type { CheckSettings, FindingCode } from "./facts.ts";

/** What a practice has set itself, however little. */
export type ToldCheckSettings = Partial<Omit<CheckSettings, "airDrySeconds">> & {
  airDrySeconds?: Partial<CheckSettings["airDrySeconds"]>;
};

/**
 * Thresholds where a practice has set none. Days, and seconds of air-drying by solvent. Common
 * practice, no source; to be confirmed by the practice.
 */
export const startingCheckSettings: CheckSettings = {
  shortDatedDays: 30,
  airDrySeconds: { acetone: 5, ethanol: 10, "tert-butanol": 10, water: 15 },
  lightCeilingMwCm2: 2000,
  lightFloorMwCm2: 400,
  lightCheckDays: 30,
  waitingLimitDays: 21,
  raised: [],
};

/** Fills in the starting value wherever a practice has set none. */
export function fillCheckSettings(told: ToldCheckSettings): CheckSettings {
  return {
    ...startingCheckSettings,
    ...told,
    airDrySeconds: { ...startingCheckSettings.airDrySeconds, ...told.airDrySeconds },
  };
}

/**
 * Answers whether a practice may raise the level of a code: only a caution becomes a stop. A stop
 * is one already, and a note is no warning.
 */
export function isRaisable(code: FindingCode): boolean {
  return allChecks.some((check) => check.code === code && check.level === "caution");
}
