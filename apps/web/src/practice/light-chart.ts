/** The picture of a light's readings over time: where each stands, in parts of the whole. */
export interface ChartReading {
  atMs: number;
  value: number;
}
export interface ChartPoint extends ChartReading {
  /** From the left and from the bottom, 0 to 1. */
  x: number;
  y: number;
}
export interface ChartScale {
  points: readonly ChartPoint[];
  /** The height of a value, 0 to 1. */
  heightOf: (value: number) => number;
  /** Round values for the lines across, lowest first. */
  ticks: readonly number[];
}

/**
 * Scales readings, oldest first. The lowest line is nothing, so that a loss is seen as large as it
 * is; the highest is the next round value above all readings and the floor.
 */
export function scaleReadings(readings: readonly ChartReading[], floor: number): ChartScale {
  const highest = Math.max(floor, 1, ...readings.map(({ value }) => value));
  const step = roundStep(highest / 4);
  const top = Math.ceil(highest / step) * step;
  const heightOf = (value: number): number => value / top;
  const [first, last] = [readings[0]?.atMs ?? 0, readings.at(-1)?.atMs ?? 0];
  const span = last - first;
  return {
    points: readings.map((reading) => ({
      ...reading,
      x: span === 0 ? 0.5 : (reading.atMs - first) / span,
      y: heightOf(reading.value),
    })),
    heightOf,
    ticks: Array.from({ length: Math.round(top / step) + 1 }, (_, index) => index * step),
  };
}

/** The smallest of 1, 2 and 5 times a power of ten that is not below. */
function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  return ([1, 2, 5].find((factor) => factor * power >= least) ?? 10) * power;
}
