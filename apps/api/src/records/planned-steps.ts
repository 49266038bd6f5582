import {
  assignSteps,
  computeEffectiveEnd,
  planCure,
  planSeconds,
  type ProductFacts,
  type TechniqueStep,
  type TrayItemFacts,
} from "#domain";
import type { CureView, PlannedStep } from "#contracts/records";
import { listRecordSteps, type ReadRecord } from "./read-record.ts";
import type { EventRow } from "./records.store.ts";

/** The steps of a record with what stands at each, what it plans and what was done so far. */
export function plannedSteps(read: ReadRecord): PlannedStep[] {
  const { steps } = assignSteps(listRecordSteps(read), read.tray.facts.items);
  return steps.map(({ step, items }) => {
    const ofStep = read.events.filter((event) => event.step_key === step.key);
    const products = items.flatMap(({ product }) => product ?? []);
    return {
      key: step.key,
      name: step.name,
      required: step.required,
      usesMaterial: step.accepts.length > 0,
      applicationSeconds: planSeconds(step, products, "applicationSeconds"),
      airDrySeconds: planSeconds(step, products, "airDrySeconds"),
      cureSeconds: planSeconds(step, products, "cureSeconds"),
      containers: containersOf(items),
      ...progressOf(ofStep),
      neededJCm2: mostOf(products.map((product) => product.radiantExposureJCm2)),
      dropLifeSeconds: leastOf(products.map((product) => product.dropLifeSeconds)),
      thickness: thicknessOf(step, ofStep),
      light: lightOf(step, products, read),
    };
  });
}

const containersOf = (items: readonly TrayItemFacts[]): PlannedStep["containers"] =>
  items.flatMap(({ container, product }) =>
    container && product
      ? [
          {
            id: container.id,
            code: container.code,
            productName: product.name,
            lot: container.lot,
            endsOn: computeEffectiveEnd({ ...container, ...product })?.date ?? null,
          },
        ]
      : [],
  );

function progressOf(events: readonly EventRow[]) {
  const lastOf = (kind: string) => events.findLast((event) => event.kind === kind);
  const started = lastOf("step-started");
  const dispensed = lastOf("dispensed");
  const part = events.findLast(({ kind }) => ["part-started", "step-done"].includes(kind));
  return {
    done: lastOf("step-done") !== undefined,
    leftOut: lastOf("step-left-out") !== undefined,
    startedAt: started?.occurred_at.toISOString() ?? null,
    running:
      part?.kind === "part-started"
        ? {
            part: part.facts["part"] as NonNullable<PlannedStep["running"]>["part"],
            seconds: Number(part.facts["seconds"]),
            startedAt: part.occurred_at.toISOString(),
          }
        : null,
    dispensedAt: dispensed?.occurred_at.toISOString() ?? null,
    cures: events.filter(({ kind }) => kind === "cure").map(({ facts }) => facts as CureView),
  };
}

function leastOf(numbers: readonly (number | null)[]): number | null {
  const stated = numbers.filter((one): one is number => one !== null);
  return stated.length === 0 ? null : Math.min(...stated);
}

function mostOf(numbers: readonly (number | null)[]): number | null {
  const least = leastOf(numbers.map((one) => (one === null ? null : -one)));
  return least === null ? null : -least;
}

function thicknessOf(step: TechniqueStep, events: readonly EventRow[]): PlannedStep["thickness"] {
  if (step.thicknessTenthMm === null) return null;
  const measured = events.findLast(({ kind }) => kind === "thickness");
  return {
    ...step.thicknessTenthMm,
    measured: measured === undefined ? null : Number(measured.facts["tenthMm"]),
  };
}

function lightOf(
  step: TechniqueStep,
  products: readonly ProductFacts[],
  { tray }: ReadRecord,
): PlannedStep["light"] {
  const cures = products.flatMap((product) => planCure(step, product, tray.facts.light) ?? []);
  const [hardest] = cures.sort((a, b) => b.neededMjPerCm2 - a.neededMjPerCm2);
  if (hardest === undefined) return null;
  return {
    distanceTenthMm: hardest.distanceTenthMm,
    irradianceMwCm2: hardest.at.irradianceMwPerCm2,
    known: hardest.at.known,
    neededJCm2: hardest.neededMjPerCm2 / 1000,
    givenJCm2: Math.floor(hardest.givenMjPerCm2 / 10) / 100,
    enoughSeconds: hardest.enoughSeconds,
  };
}
