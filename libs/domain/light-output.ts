/**
 * Light for curing. Irradiance and exitance are whole milliwatts per square centimetre, radiant
 * exposure is millijoules per square centimetre, distances are tenths of a millimetre, times are
 * seconds. Exitance is what leaves the tip, irradiance what arrives at the target; they are equal
 * at no distance alone. Terms: FDI policy statement on intraoral light curing, 2021.
 */

/** A stretch of a light's mode: its output goes evenly from one level to the other. */
export interface LightPhase {
  seconds: number;
  fromMwPerCm2: number;
  toMwPerCm2: number;
}

/** A stretch of a mode as a share of the light's own full output, in percent. */
export interface ModePhase {
  seconds: number;
  fromPercent: number;
  toPercent: number;
}

/** One line of a light's own measured table. */
export interface LightReading {
  distanceTenthMm: number;
  irradianceMwPerCm2: number;
}

/** The irradiance at a distance, and whether it was measured there or between two distances. */
export interface LightAtDistance {
  irradianceMwPerCm2: number;
  /** `estimate`: nothing was measured that far away, so the value nearest to it is given. */
  known: "measured" | "between" | "estimate";
}

/**
 * The radiant exposure of an irradiance that stays the same for `seconds`: H = E t, in millijoules
 * per square centimetre. Source: FDI policy statement on intraoral light curing, 2021.
 */
export function computeRadiantExposure(irradianceMwPerCm2: number, seconds: number): number {
  return irradianceMwPerCm2 * seconds;
}

/**
 * The whole seconds, rounded up, in which an irradiance brings a radiant exposure about. `null`
 * where the light gives nothing. Source: as `computeRadiantExposure`.
 */
export function secondsForExposure(
  neededMjPerCm2: number,
  irradianceMwPerCm2: number,
): number | null {
  return irradianceMwPerCm2 > 0 ? Math.ceil(neededMjPerCm2 / irradianceMwPerCm2) : null;
}

/**
 * The radiant exposure of the first `seconds` of a mode with phases, such as a soft start or two
 * stages: the integral of the irradiance over time, in millijoules per square centimetre. After
 * the last phase the light is off. Source: as `computeRadiantExposure`; an even change within a
 * phase is the project's rule.
 */
export function computeModeExposure(phases: readonly LightPhase[], seconds: number): number {
  let left = seconds;
  let exposure = 0;
  for (const phase of phases) {
    const lit = Math.min(left, phase.seconds);
    if (lit <= 0) break;
    const { fromMwPerCm2: from, toMwPerCm2: to } = phase;
    const reached = from + ((to - from) * lit) / phase.seconds;
    exposure += ((from + reached) / 2) * lit;
    left -= lit;
  }
  return exposure;
}

/**
 * The radiant exposure of the first `seconds` of a mode at a full output of `irradianceMwPerCm2`,
 * in millijoules per square centimetre. After its last phase the light goes on as that ended; a
 * mode without phases gives its full output all the time. Source: as `computeModeExposure`.
 */
export function exposureOfMode(
  phases: readonly ModePhase[],
  irradianceMwPerCm2: number,
  seconds: number,
): number {
  const level = (percent: number): number => (irradianceMwPerCm2 * percent) / 100;
  const rest = level(phases.at(-1)?.toPercent ?? 100);
  const stretches = phases.map((phase) => ({
    seconds: phase.seconds,
    fromMwPerCm2: level(phase.fromPercent),
    toMwPerCm2: level(phase.toPercent),
  }));
  stretches.push({ seconds, fromMwPerCm2: rest, toMwPerCm2: rest });
  return computeModeExposure(stretches, seconds);
}

/**
 * The irradiance at a distance by the light's own measured table, on the straight line between the
 * two distances next to it. Beyond the table nothing is reckoned: the nearest reading is given as
 * an estimate. `null` for an empty table. No law of distance is assumed, least of all the inverse
 * square: a tip is no point source, and two lights lost 15 % and 71 % on the same 4 mm (IADR 2013,
 * IAGS abstract 684, table 1). Straight lines between readings are the project's rule.
 */
export function irradianceAtDistance(
  table: readonly LightReading[],
  distanceTenthMm: number,
): LightAtDistance | null {
  const sorted = [...table].sort((a, b) => a.distanceTenthMm - b.distanceTenthMm);
  const beyond = sorted.findIndex((reading) => reading.distanceTenthMm >= distanceTenthMm);
  const above = sorted[beyond] ?? sorted.at(-1);
  if (above === undefined) return null;
  if (above.distanceTenthMm === distanceTenthMm) {
    return { irradianceMwPerCm2: above.irradianceMwPerCm2, known: "measured" };
  }
  const below = sorted[beyond - 1];
  if (below === undefined || beyond === -1) {
    return { irradianceMwPerCm2: above.irradianceMwPerCm2, known: "estimate" };
  }
  const share =
    (distanceTenthMm - below.distanceTenthMm) / (above.distanceTenthMm - below.distanceTenthMm);
  const between =
    below.irradianceMwPerCm2 + share * (above.irradianceMwPerCm2 - below.irradianceMwPerCm2);
  // Rounded down: less light than there is is the safe side.
  return { irradianceMwPerCm2: Math.floor(between), known: "between" };
}

/**
 * The radiant exitance of a light: its radiant power over the area of its round tip. Power in
 * milliwatts, the tip's diameter in tenths of a millimetre; whole milliwatts per square centimetre,
 * rounded down. `null` where the tip has no size. Source: ISO 10650, radiant exitance.
 */
export function computeExitance(powerMw: number, tipDiameterTenthMm: number): number | null {
  if (tipDiameterTenthMm <= 0) return null;
  const radiusCm = tipDiameterTenthMm / 200;
  return Math.floor(powerMw / (Math.PI * radiusCm * radiusCm));
}

/**
 * What a light has lost against its own first reading, in percent; negative where it gives more.
 * `null` where the first reading was nothing. Source: arithmetic; that a light is compared with
 * itself is common practice, no source, and so is any limit set to it.
 */
export function computeLossPercent(firstMwPerCm2: number, nowMwPerCm2: number): number | null {
  if (firstMwPerCm2 <= 0) return null;
  return ((firstMwPerCm2 - nowMwPerCm2) * 100) / firstMwPerCm2;
}
