import type { AppointmentFault, SettledAppointment } from "#domain";
import type { AnswerOf } from "#contracts/operations";

export type GoodVisit = Extract<SettledAppointment, { ok: true }>;
type Visit = AnswerOf<"listVisits">["visits"][number];

/** What a line of a list comes to. */
export type Line =
  | { kind: "new"; visit: GoodVisit }
  | { kind: "planned"; trayId: string }
  /** The same chart at the same time as a line above, counted from 1. */
  | { kind: "double"; line: number }
  | { kind: "wrong"; faults: readonly AppointmentFault[] };

const keyOf = (chart: string, at: string): string => `${at} ${chart}`;

/** What each line comes to beside what is planned already and the lines above it. */
export function judgeLines(
  settled: readonly SettledAppointment[],
  visits: readonly Visit[],
): readonly Line[] {
  const planned = new Map(
    visits.map((one) => [keyOf(one.chartNumber, one.appointmentAt), one.trayId]),
  );
  const above = new Map<string, number>();
  return settled.map((visit, index): Line => {
    if (!visit.ok) return { kind: "wrong", faults: visit.faults };
    const key = keyOf(visit.chartNumber, visit.appointmentAt);
    const line = above.get(key);
    if (line !== undefined) return { kind: "double", line };
    above.set(key, index + 1);
    const trayId = planned.get(key);
    return trayId === undefined ? { kind: "new", visit } : { kind: "planned", trayId };
  });
}

/** The first and the last of some instants; `null` where there is none. */
export function spanOf(instants: readonly string[]): { first: string; last: string } | null {
  const sorted = [...instants].sort();
  const [first] = sorted;
  const last = sorted.at(-1);
  return first === undefined || last === undefined ? null : { first, last };
}
