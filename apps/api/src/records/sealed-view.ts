import type { PlannedStep, RecordView } from "#contracts/records";

/** What was signed, as it was written then; of an older program it may lack what came later. */
type Sealed = Partial<Omit<RecordView, "steps">> & { plannedSteps?: PlannedStep[] };

/**
 * A record as it was signed: what its hash was made of, and not what its products are called or
 * its instructions say by now. Its state, its other versions and its links are those of today.
 */
export function sealedView(now: RecordView, canonical: string): RecordView {
  const { plannedSteps, ...sealed } = JSON.parse(canonical) as Sealed;
  const { state, versions, signed, seal, bonding, check } = now;
  const names = Object.keys(now) as (keyof RecordView)[];
  const content = Object.fromEntries(
    names.flatMap((name) =>
      name !== "steps" && sealed[name] !== undefined ? [[name, sealed[name]]] : [],
    ),
  );
  const steps = plannedSteps?.map((step) => ({
    ...now.steps.find(({ key }) => key === step.key),
    ...step,
  }));
  const today = { state, versions, signed, seal, bonding, check };
  return { ...now, ...content, ...today, steps: steps ?? now.steps };
}

/**
 * What a later version takes over as it was signed: what was planned and which stops were passed at
 * the visit. What was done is told anew.
 */
export function carriedOver(
  now: RecordView,
  signed: RecordView,
): Pick<RecordView, "steps" | "passed"> {
  const steps = now.steps.map((step) => {
    const planned = signed.steps.find(({ key }) => key === step.key);
    const { done, leftOut, startedAt, running, dispensedAt, cures, thickness } = step;
    return {
      ...step,
      ...planned,
      done,
      leftOut,
      startedAt,
      running,
      dispensedAt,
      cures,
      thickness,
    };
  });
  return { steps, passed: signed.passed };
}
