/**
 * The clock of one step at the chair: its timed parts one after another, each begun by a tap. It
 * is read from what the record tells and what this device has still to send, so it survives a
 * reload, a tablet asleep and a lost network, and a second tablet shows the same.
 */
import { timedParts, type TimedPart } from "#domain";
import type { AnswerOf } from "#contracts/operations";

export type RecordStep = AnswerOf<"getRecord">["steps"][number];
export type RecordEvent = AnswerOf<"getRecord">["events"][number];

/** A timed part of a step: how long, and who says so. */
export interface Part {
  kind: TimedPart;
  seconds: number;
  /** `exposure`: so long as the light needs for what the instructions ask for. */
  from: "ifu" | "technique" | "exposure";
}

export interface Run {
  part: TimedPart;
  /** As planned when it began. */
  seconds: number;
  beganMs: number;
  /** `null` while it runs. */
  endedMs: number | null;
}

/** The parts of a step that have a time, in the order of the work. */
export function listParts(
  step: Pick<RecordStep, "applicationSeconds" | "airDrySeconds" | "cureSeconds">,
): readonly Part[] {
  const planned = {
    application: step.applicationSeconds,
    "air-dry": step.airDrySeconds,
    cure: step.cureSeconds,
  };
  return timedParts.flatMap((kind) => {
    const part = planned[kind];
    return part === null || part.seconds === 0 ? [] : [{ kind, ...part }];
  });
}

/**
 * The parts that were begun since the step was last done, oldest first. One ends where the next
 * begins, where its cure is noted, or where the step is done.
 */
export function readRuns(events: readonly RecordEvent[], stepKey: string): readonly Run[] {
  let runs: readonly Run[] = [];
  for (const event of events) {
    if (event.stepKey !== stepKey) continue;
    const { kind, facts } = event;
    const atMs = Date.parse(event.occurredAt);
    if (kind === "step-done") runs = [];
    if (kind === "cure") runs = endRunning(runs, atMs);
    const part = timedParts.find((one) => one === facts["part"]);
    if (kind !== "part-started" || part === undefined) continue;
    const begun = { part, seconds: Number(facts["seconds"]), beganMs: atMs, endedMs: null };
    runs = [...endRunning(runs, atMs), begun];
  }
  return runs;
}

function endRunning(runs: readonly Run[], nowMs: number): readonly Run[] {
  const running = runningOf(runs);
  if (running === null) return runs;
  // A clock set back meanwhile must not make a negative time.
  const endedMs = Math.max(nowMs, running.beganMs);
  return [...runs.slice(0, -1), { ...running, endedMs }];
}

/** The part that runs now, or `null`. */
export function runningOf(runs: readonly Run[]): Run | null {
  const last = runs.at(-1);
  return last !== undefined && last.endedMs === null ? last : null;
}

/** The first part not yet begun, or `null` where all have been. */
export function nextPart(parts: readonly Part[], runs: readonly Run[]): Part | null {
  const begun = new Set(runs.map((run) => run.part));
  return parts.find(({ kind }) => !begun.has(kind)) ?? null;
}

/** What the ring shows: the part that runs, for the time it was begun with; else the next one. */
export function shownPart(parts: readonly Part[], runs: readonly Run[]): Part | null {
  const running = runningOf(runs);
  if (running === null) return nextPart(parts, runs) ?? parts.at(-1) ?? null;
  const { part: kind, seconds } = running;
  const planned = parts.find((part) => part.kind === kind);
  return planned?.seconds === seconds ? planned : { kind, seconds, from: "exposure" };
}

/** How far a part has run: whole seconds left, whole seconds over, and the fraction still to go. */
export function readRun(run: Run, nowMs: number): { left: number; over: number; fraction: number } {
  const ranSeconds = Math.max(0, ((run.endedMs ?? nowMs) - run.beganMs) / 1000);
  const leftSeconds = run.seconds - ranSeconds;
  return {
    left: Math.max(0, Math.ceil(leftSeconds)),
    over: Math.max(0, Math.floor(-leftSeconds)),
    fraction: Math.max(0, leftSeconds / run.seconds),
  };
}

const ranMs = (run: Run, nowMs: number): number =>
  Math.max(0, (run.endedMs ?? nowMs) - run.beganMs);

/** All the time that ran at the step, in whole seconds, as the record keeps it. */
export function totalSeconds(runs: readonly Run[], nowMs: number): number {
  const totalMs = runs.reduce((sum, run) => sum + ranMs(run, nowMs), 0);
  return Math.min(7200, Math.round(totalMs / 1000));
}

/**
 * The whole seconds of light that a run is sure to have given: a light goes out by itself at the
 * time it was begun with, so what the clock ran over is not counted.
 */
export function litSeconds(run: Run, nowMs: number): number {
  return Math.min(run.seconds, Math.floor(ranMs(run, nowMs) / 1000));
}
