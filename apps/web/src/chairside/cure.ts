/** A cure as it is about to be done: which light, how, how far, and what it would give. */
import {
  exposureOfMode,
  irradianceAtDistance,
  secondsForExposure,
  type LightAtDistance,
} from "#domain";
import type { AnswerOf } from "#contracts/operations";

export type Light = AnswerOf<"listLights">["lights"][number];

/** What the person has chosen; the distance in tenths of a millimetre. */
export interface CureChoice {
  lightId: string | null;
  mode: string | null;
  distanceTenthMm: number;
}

/** The distances a person can tell apart at a tooth. Common practice, no source. */
const distanceBands = [0, 20, 40, 60, 80] as const;

/** The distances to choose from, with the one that is planned or chosen among them. */
export const listDistances = (chosen: number): readonly number[] =>
  [...new Set([...distanceBands, chosen])].sort((a, b) => a - b);

/** What a light would give in so many seconds, in J/cm2. */
export interface Exposure {
  irradianceMwCm2: number;
  known: LightAtDistance["known"];
  givenJCm2: number;
  /** Whole seconds that would do; `null` where nothing is asked, or the light gives none. */
  enoughSeconds: number | null;
}

/** Reckons a cure from the light's own table; `null` where it was not measured in that mode. */
export function reckonCure(
  light: Light | undefined,
  choice: CureChoice,
  told: { seconds: number; neededJCm2: number | null },
): Exposure | null {
  const mode = light?.modes.find(({ name }) => name === choice.mode) ?? light?.modes[0];
  if (mode === undefined) return null;
  const table = mode.table.map(({ distanceTenthMm, irradianceMwCm2 }) => ({
    distanceTenthMm,
    irradianceMwPerCm2: irradianceMwCm2,
  }));
  const at = irradianceAtDistance(table, choice.distanceTenthMm);
  if (at === null) return null;
  const { irradianceMwPerCm2: irradiance, known } = at;
  const given = (seconds: number): number => exposureOfMode(mode.phases, irradiance, seconds);
  const neededMj = told.neededJCm2 === null ? null : Math.round(told.neededJCm2 * 1000);
  return {
    irradianceMwCm2: irradiance,
    known,
    givenJCm2: Math.floor(given(told.seconds) / 10) / 100,
    enoughSeconds: neededMj === null ? null : findEnough(neededMj, irradiance, given),
  };
}

/** A mode that rises needs more than the constant output would, so it is sought from there on. */
function findEnough(
  neededMj: number,
  irradiance: number,
  given: (seconds: number) => number,
): number | null {
  const from = secondsForExposure(neededMj, irradiance);
  if (from === null) return null;
  for (let seconds = from; seconds <= 600; seconds += 1) {
    if (given(seconds) >= neededMj) return seconds;
  }
  return null;
}
