import { clockAt, instantOfClock } from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";

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

type Reading = AnswerOf<"getLight">["readings"][number];

export const readAs = ["irradiance", "power"] as const;

/** A reading as it is filled in. */
export interface ReadingDraft {
  mode: string;
  as: (typeof readAs)[number];
  value: string;
  distance: string;
  radiometer: string;
  note: string;
  /** On the practice's clock, as a field has it; empty for now. */
  at: string;
  /** The wrong reading that it takes the place of; empty for none. */
  replacesId: string;
}

/** What is filled in of a wrong reading: all but its value and note is most likely right. */
export function draftLike(wrong: Reading, timeZone: string): Partial<ReadingDraft> {
  const { day, time } = clockAt(wrong.readAt, timeZone);
  return {
    mode: wrong.mode,
    distance: String(wrong.distanceTenthMm / 10),
    radiometer: wrong.radiometer,
    at: `${day}T${time}`,
    replacesId: wrong.id,
  };
}

/** The reading as it is sent; `null` where its distance or its time is none. */
export function readReading(
  draft: ReadingDraft,
  wrong: Reading | undefined,
  timeZone: string,
): BodyOf<"addLightReading"> | null {
  const distanceTenthMm = readTenthMm(draft.distance);
  const readAt = draft.at === "" ? undefined : readLocal(draft.at, timeZone);
  if (distanceTenthMm === null || readAt === null) return null;
  const { mode, radiometer, note } = draft;
  const value = Number(draft.value);
  const sameTime = wrong !== undefined && draftLike(wrong, timeZone).at === draft.at;
  const at = sameTime ? wrong.readAt : readAt;
  return {
    ...{ mode, distanceTenthMm, radiometer, note },
    ...(draft.as === "power" ? { powerMw: value } : { irradianceMwCm2: value }),
    ...(at === undefined ? {} : { readAt: at }),
    ...(wrong === undefined ? {} : { replacesId: wrong.id }),
  };
}

/** The instant of a local date and time as a field has them; `null` where they are none. */
export function readLocal(local: string, timeZone: string): string | null {
  const [day = "", time = ""] = local.split("T");
  return instantOfClock(day, time, timeZone);
}
