import { addDays } from "./civil-date.ts";
import type { CheckSettings } from "./facts.ts";
import { computeLossPercent } from "./light-output.ts";

/** One reading of a light at its tip, in the mode it is judged by. */
export interface TipReading {
  /** Civil date in the practice's zone. */
  readOn: string;
  irradianceMwPerCm2: number;
}

/** How a curing light stands. */
export interface LightState {
  /** `due`: not read within the practice's days; `weak`: below its floor; `unread`: never read. */
  state: "good" | "due" | "weak" | "unread";
  readOn: string | null;
  /** The last day on which the latest reading still holds. */
  dueOn: string | null;
  /** Against the light's own first reading, in percent with one decimal; negative for a gain. */
  lossPercent: number | null;
}

/**
 * How a light stands on a day, by its readings at the tip, oldest first. Weak counts before due.
 * Source: a light is compared with its own first reading, common practice, no source; the floor and
 * the days are the practice's.
 */
export function computeLightState(
  readings: readonly TipReading[],
  settings: Pick<CheckSettings, "lightFloorMwCm2" | "lightCheckDays">,
  today: string,
): LightState {
  const first = readings[0];
  const last = readings.at(-1);
  if (first === undefined || last === undefined) {
    return { state: "unread", readOn: null, dueOn: null, lossPercent: null };
  }
  const dueOn = addDays(last.readOn, settings.lightCheckDays);
  const loss = computeLossPercent(first.irradianceMwPerCm2, last.irradianceMwPerCm2);
  const isWeak = last.irradianceMwPerCm2 < settings.lightFloorMwCm2;
  return {
    state: isWeak ? "weak" : dueOn < today ? "due" : "good",
    readOn: last.readOn,
    dueOn,
    lossPercent: loss === null ? null : Math.round(loss * 10) / 10,
  };
}
