import type { BodyOf } from "#contracts/operations";

type Mode = NonNullable<BodyOf<"addLight">["modes"]>[number];

/** How a mode gives its output: all at once, rising to all of it, or first a part of it. */
export const courses = ["constant", "rising", "stages"] as const;
export type Course = (typeof courses)[number];

/** A mode as it is filled in. */
export interface ModeRow {
  name: string;
  course: Course;
  seconds: string;
  fromPercent: string;
}
export const usualMode: ModeRow = {
  name: "Standard",
  course: "constant",
  seconds: "5",
  fromPercent: "50",
};

/** Tenths of a millimetre of a text such as `8` or `7,5`; `null` for another one. */
export function readTenthMm(text: string): number | null {
  const trimmed = text.trim().replace(",", ".");
  return /^\d{1,2}(\.\d)?$/.test(trimmed) ? Math.round(Number(trimmed) * 10) : null;
}

/** The modes of filled rows; those without a name are left out. */
export function readModes(rows: readonly ModeRow[]): Mode[] {
  return rows
    .filter(({ name }) => name.trim() !== "")
    .map(({ name, course, seconds, fromPercent }) => {
      const from = Number(fromPercent);
      const phase = { seconds: Number(seconds), fromPercent: from };
      const phases = {
        constant: [],
        rising: [{ ...phase, toPercent: 100 }],
        stages: [
          { ...phase, toPercent: from },
          { seconds: 120, fromPercent: 100, toPercent: 100 },
        ],
      };
      return { name: name.trim(), phases: phases[course] };
    });
}
