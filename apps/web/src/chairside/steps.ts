import type { AnswerOf, BodyOf } from "#contracts/operations";
import type { OutboxEntry } from "../outbox/entry.ts";
import type { RecordEvent, RecordStep } from "./timer.ts";

export type RecordView = AnswerOf<"getRecord">;

/** A record with what this device has kept but the server has not yet confirmed. */
export function withWaiting(record: RecordView, waiting: readonly OutboxEntry[]): RecordView {
  const events = waiting
    .filter(({ route, refused }) => route === "addRecordEvent" && refused === null)
    .map((entry, index) => eventOf(entry, record.events.length + index + 1));
  if (events.length === 0) return record;
  const steps = record.steps.map((step) =>
    events.filter(({ stepKey }) => stepKey === step.key).reduce(tell, step),
  );
  return { ...record, steps, events: [...record.events, ...events] };
}

function eventOf({ body, at, personName }: OutboxEntry, sequence: number): RecordEvent {
  const { kind, occurredAt = at, ...told } = body as BodyOf<"addRecordEvent">;
  const { stepKey = null, ...facts } = { stepKey: undefined, ...told };
  return { sequence, kind, stepKey, facts, occurredAt, recordedAt: occurredAt, person: personName };
}

function tell(step: RecordStep, { kind, facts, occurredAt }: RecordEvent): RecordStep {
  switch (kind) {
    case "step-started":
    case "part-started":
      return { ...step, startedAt: step.startedAt ?? occurredAt };
    case "step-done":
      return { ...step, done: true };
    case "step-left-out":
      return { ...step, leftOut: true };
    case "dispensed":
      return { ...step, dispensedAt: occurredAt };
    case "thickness": {
      const { thickness } = step;
      if (thickness === null) return step;
      return { ...step, thickness: { ...thickness, measured: Number(facts["tenthMm"]) } };
    }
    default:
      return step;
  }
}

/**
 * The step to work now: the one chosen; else the first not done and not left out; `null` when only
 * signing is left.
 */
export function stepToWork(steps: readonly RecordStep[], chosen: string | null): RecordStep | null {
  const wanted = steps.find((step) => step.key === chosen);
  return wanted ?? steps.find((step) => !step.done && !step.leftOut) ?? null;
}

/** The teeth whose next step is this one, too. */
export function listAlongside(
  others: readonly RecordView[],
  stepKey: string,
): readonly RecordView[] {
  return others.filter(({ steps }) => stepToWork(steps, null)?.key === stepKey);
}

/** The required steps that keep the record from being signed: not done, or of no material. */
export function listLacking(record: RecordView): readonly RecordStep[] {
  const passed = (step: RecordStep): boolean =>
    record.check?.findings.some(
      ({ code, overridden, subject }) =>
        code === "missing" && overridden !== null && subject.stepKey === step.key,
    ) === true;
  const hasMaterial = (step: RecordStep): boolean =>
    record.materials.some((material) => material.stepKey === step.key);
  return record.steps.filter(
    (step) =>
      step.required && !(step.done && (!step.usesMaterial || hasMaterial(step) || passed(step))),
  );
}

/** Steps whose layer is to be measured and was not: it can still be told before the signature. */
export const listUnmeasured = ({ steps }: RecordView): readonly RecordStep[] =>
  steps.filter(({ thickness, done }) => done && thickness !== null && thickness.measured === null);

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
