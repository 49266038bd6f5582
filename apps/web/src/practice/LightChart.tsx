import type { ReactNode } from "react";
import { formatNumber } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { scaleReadings, type ChartReading } from "./light-chart.ts";

const [width, height, left, bottom] = [640, 220, 64, 28];
const inner = { width: width - left - 12, height: height - bottom - 12 };
// A reading at either end stands clear of the numbers.
const across = (x: number): number => left + 10 + x * (inner.width - 20);
const up = (y: number): number => 12 + (1 - y) * inner.height;

interface LightChartProps {
  title: string;
  /** At the tip, oldest first, in mW/cm2. */
  readings: readonly ChartReading[];
  /** Of the practice; unknown until it is fetched. */
  floor: number | undefined;
}

/** What a light gave at its tip over time, against its own first reading and the floor. */
export function LightChart({ title, readings, floor }: LightChartProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, civilDate, shortDate } = useFormats();
  const [first] = readings;
  if (first === undefined) return null;
  const { points, heightOf, ticks } = scaleReadings(readings, floor ?? 0);
  const dayOf = ({ atMs }: ChartReading): string =>
    shortDate(civilDate(new Date(atMs).toISOString()));
  const line = (value: number, className: string) => (
    <line
      className={className}
      x1={left}
      x2={width - 12}
      y1={up(heightOf(value))}
      y2={up(heightOf(value))}
    />
  );
  return (
    <figure className="light-chart">
      <figcaption>{title}</figcaption>
      {/* The table beneath says the same in words. */}
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        {ticks.map((value) => (
          <g key={value}>
            {line(value, "chart-tick")}
            <text x={left - 8} y={up(heightOf(value)) + 5} textAnchor="end">
              {formatNumber(language, value)}
            </text>
          </g>
        ))}
        {line(first.value, "chart-first")}
        {floor === undefined ? null : line(floor, "chart-floor")}
        <polyline
          className="chart-line"
          points={points.map(({ x, y }) => `${across(x)},${up(y)}`).join(" ")}
        />
        {points.map(({ atMs, x, y }) => (
          <circle key={atMs} className="chart-point" cx={across(x)} cy={up(y)} r="6" />
        ))}
        <text x={left} y={height - 6}>
          {dayOf(first)}
        </text>
        {readings.length < 2 ? null : (
          <text x={width - 12} y={height - 6} textAnchor="end">
            {dayOf(readings.at(-1)!)}
          </text>
        )}
      </svg>
      <p className="hint chart-key">
        <span className="chart-key-first">{t.chartFirst}</span>
        <span className="chart-key-floor">{t.chartFloor}</span>
      </p>
    </figure>
  );
}
