import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { OutboxEntry } from "../outbox/entry.ts";
import type { RecordStep } from "./timer.ts";

export type RecordView = AnswerOf<"getRecord">;

/** The steps of a record with what this device has sent but the server has not yet confirmed. */
export function withWaiting(
  steps: readonly RecordStep[],
  waiting: readonly OutboxEntry[],
): readonly RecordStep[] {
  const events = waiting
    .filter((entry) => entry.route === "addRecordEvent")
    .map((entry) => ({ at: entry.at, body: entry.body as BodyOf<"addRecordEvent"> }));
  return steps.map((step) => {
    const ofStep = events.filter(({ body }) => "stepKey" in body && body.stepKey === step.key);
    const started = ofStep.findLast(({ body }) => body.kind === "step-started");
    return {
      ...step,
      done: step.done || ofStep.some(({ body }) => body.kind === "step-done"),
      startedAt: started?.at ?? step.startedAt,
    };
  });
}

/**
 * The step to work now: the one chosen; else the first not done and not left out; `null` when only
 * signing is left.
 */
export function stepToWork(
  steps: readonly RecordStep[],
  chosen: string | null,
  leftOut: ReadonlySet<string>,
): RecordStep | null {
  const wanted = steps.find((step) => step.key === chosen);
  return wanted ?? steps.find((step) => !step.done && !leftOut.has(step.key)) ?? null;
}

/** The required steps that keep the record from being signed: not done, or of no material. */
export function listLacking(
  record: RecordView,
  steps: readonly RecordStep[],
): readonly RecordStep[] {
  const passed = (step: RecordStep): boolean =>
    record.check?.findings.some(
      ({ code, overridden, subject }) =>
        code === "missing" && overridden !== null && subject.stepKey === step.key,
    ) === true;
  const hasMaterial = (step: RecordStep): boolean =>
    record.materials.some((material) => material.stepKey === step.key);
  return steps.filter(
    (step) =>
      step.required && !(step.done && (!step.usesMaterial || hasMaterial(step) || passed(step))),
  );
}

/** Stops that no dentist has passed and that were not there when priming began. */
export function listNewStops(record: RecordView): RecordView["startCheck"]["findings"] {
  const before = new Set(record.startCheck.findings.map(nameFinding));
  return (record.check?.findings ?? []).filter(
    (finding) =>
      finding.level === "stop" && finding.overridden === null && !before.has(nameFinding(finding)),
  );
}

const nameFinding = ({ code, subject }: RecordView["startCheck"]["findings"][number]): string =>
  [code, subject.itemId, subject.stepKey].join(" ");
