/**
 * The clock of one step at the chair: its timed parts one after another, each begun by a tap. Only
 * instants are kept, so a reload changes nothing: the time that runs is always now minus begun.
 */
import type { AnswerOf } from "#contracts/operations";

export type RecordStep = AnswerOf<"getRecord">["steps"][number];
export type PartKind = "apply" | "airDry" | "cure";

/** A timed part of a step: how long, and who says so. */
export interface Part {
  kind: PartKind;
  seconds: number;
  from: "ifu" | "technique";
}

export interface Run {
  part: PartKind;
  beganMs: number;
  /** `null` while it runs. */
  endedMs: number | null;
}

export interface StepTimer {
  stepKey: string;
  runs: readonly Run[];
}

/** The parts of a step that have a time, in the order of the work. */
export function listParts(
  step: Pick<RecordStep, "applicationSeconds" | "airDrySeconds" | "cureSeconds">,
): readonly Part[] {
  const { applicationSeconds, airDrySeconds, cureSeconds } = step;
  const parts = [
    { kind: "apply" as const, planned: applicationSeconds },
    { kind: "airDry" as const, planned: airDrySeconds },
    { kind: "cure" as const, planned: cureSeconds },
  ];
  return parts.flatMap(({ kind, planned }) =>
    planned === null || planned.seconds === 0 ? [] : [{ kind, ...planned }],
  );
}

/** The part that runs now, or `null`. */
export function runningOf(timer: StepTimer | null): Run | null {
  const last = timer?.runs.at(-1);
  return last !== undefined && last.endedMs === null ? last : null;
}

/** Begins a part of a step: what ran before at the same step ends at the same moment. */
export function beginPart(
  timer: StepTimer | null,
  { stepKey, part, nowMs }: { stepKey: string; part: PartKind; nowMs: number },
): StepTimer {
  const before = timer?.stepKey === stepKey ? endRunning(timer, nowMs).runs : [];
  return { stepKey, runs: [...before, { part, beganMs: nowMs, endedMs: null }] };
}

export function endRunning(timer: StepTimer, nowMs: number): StepTimer {
  const running = runningOf(timer);
  if (running === null) return timer;
  // A clock set back meanwhile must not make a negative time.
  const endedMs = Math.max(nowMs, running.beganMs);
  return { ...timer, runs: [...timer.runs.slice(0, -1), { ...running, endedMs }] };
}

/** The first part not yet begun, or `null` where all have been. */
export function nextPart(parts: readonly Part[], timer: StepTimer | null): Part | null {
  const begun = new Set(timer?.runs.map((run) => run.part));
  return parts.find(({ kind }) => !begun.has(kind)) ?? null;
}

/** How far a part has run: whole seconds left, whole seconds over, and the fraction still to go. */
export function readRun(
  run: Run,
  part: Part,
  nowMs: number,
): { left: number; over: number; fraction: number } {
  const ranSeconds = Math.max(0, ((run.endedMs ?? nowMs) - run.beganMs) / 1000);
  const leftSeconds = part.seconds - ranSeconds;
  return {
    left: Math.max(0, Math.ceil(leftSeconds)),
    over: Math.max(0, Math.floor(-leftSeconds)),
    fraction: Math.max(0, leftSeconds / part.seconds),
  };
}

/** All the time that ran at the step, in whole seconds, as the record keeps it. */
export function totalSeconds(timer: StepTimer, nowMs: number): number {
  const totalMs = timer.runs.reduce(
    (sum, run) => sum + Math.max(0, (run.endedMs ?? nowMs) - run.beganMs),
    0,
  );
  return Math.min(7200, Math.round(totalMs / 1000));
}

/** The timer as it was kept, or `null` for a text that is none. */
export function readTimer(text: string | null): StepTimer | null {
  if (text === null) return null;
  try {
    const kept: unknown = JSON.parse(text);
    return isTimer(kept) ? kept : null;
  } catch {
    return null;
  }
}

function isTimer(kept: unknown): kept is StepTimer {
  if (typeof kept !== "object" || kept === null) return false;
  const { stepKey, runs } = kept as Partial<StepTimer>;
  return typeof stepKey === "string" && Array.isArray(runs) && runs.every(isRun);
}

function isRun(kept: unknown): kept is Run {
  if (typeof kept !== "object" || kept === null) return false;
  const { part, beganMs, endedMs } = kept as Partial<Run>;
  const isPart = part === "apply" || part === "airDry" || part === "cure";
  return isPart && Number.isFinite(beganMs) && (endedMs === null || Number.isFinite(endedMs));
}
