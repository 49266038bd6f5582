import { assignSteps, type StepAssignment } from "./assign-steps.ts";
import { civilDateAt } from "./civil-date.ts";
import { showContainerCode } from "./container-code.ts";
import { isUsableOn } from "./container-state.ts";
import { computeEffectiveEnd, type EffectiveEnd } from "./effective-end.ts";
import type {
  ContainerFacts,
  ProductFacts,
  TechniqueStep,
  TrayFacts,
  TrayItemFacts,
} from "./facts.ts";
import { listStepsFor } from "./technique-step.ts";
import { readEtching, type Etching } from "./step-fit.ts";

/** An item of the tray with what every check asks about it. */
export interface CheckedItem {
  facts: TrayItemFacts;
  product: ProductFacts | null;
  container: ContainerFacts | null;
  /** The steps it serves, in the technique's order. */
  steps: readonly TechniqueStep[];
  /** Of a container never received, by what its label says. */
  end: EffectiveEnd | null;
  /** What a person calls it: product name and container code. */
  name: string;
}

/** A container that can be fetched, with its effective end. */
export interface Candidate {
  container: ContainerFacts;
  product: ProductFacts;
  end: EffectiveEnd | null;
}

/** Everything the checks share, computed once for a tray. */
export interface CheckContext {
  /** As told, with those of the technique's steps alone that apply to a tooth of the visit. */
  facts: TrayFacts;
  /** The civil date of the check and of the appointment, in the practice's time zone. */
  today: string;
  appointmentDay: string;
  /** The later of both: a container must be in date through this day. */
  lastDay: string;
  /** In the order of their ids, so that the order of scanning is irrelevant. */
  items: readonly CheckedItem[];
  /** Every step, in the technique's order, with the items that serve it. */
  steps: readonly { step: TechniqueStep; items: readonly CheckedItem[] }[];
  etching: Etching;
  /** Containers that could be fetched today and used at the appointment; computed once asked. */
  listShelf: () => readonly Candidate[];
}

function nameItem({ product, container, scanned }: TrayItemFacts): string {
  if (product === null) return scanned.identifier ?? scanned.lot ?? scanned.serial ?? "?";
  return container === null ? product.name : `${product.name} ${showContainerCode(container.code)}`;
}

function findItemEnd({ product, container, scanned }: TrayItemFacts): EffectiveEnd | null {
  const labelled =
    scanned.useBy === null ? null : { date: scanned.useBy, precision: "day" as const };
  return computeEffectiveEnd({
    useBy: container === null ? labelled : container.useBy,
    openedOn: container?.openedOn ?? null,
    inUseLife: product?.inUseLife ?? null,
  });
}

function gatherItems(facts: TrayFacts): Pick<CheckContext, "items" | "steps"> {
  const sorted = [...facts.items].sort((a, b) => (a.id < b.id ? -1 : Number(a.id > b.id)));
  const assigned: StepAssignment = assignSteps(facts.technique.steps, sorted);
  const stepsById = new Map<string, TechniqueStep[]>(sorted.map((item) => [item.id, []]));
  for (const { step, items } of assigned.steps) {
    for (const item of items) stepsById.get(item.id)?.push(step);
  }
  const byId = new Map<string, CheckedItem>();
  for (const item of sorted) {
    byId.set(item.id, {
      facts: item,
      product: item.product,
      container: item.container,
      steps: stepsById.get(item.id) ?? [],
      end: findItemEnd(item),
      name: nameItem(item),
    });
  }
  const items = [...byId.values()];
  const steps = assigned.steps.map(({ step, items: served }) => ({
    step,
    items: served.flatMap((item) => byId.get(item.id) ?? []),
  }));
  return { items, steps };
}

function listUsableShelf(facts: TrayFacts, day: string): readonly Candidate[] {
  const onTray = new Set(facts.items.map((item) => item.container?.id));
  const candidates: Candidate[] = [];
  for (const { container, product } of facts.shelf) {
    if (onTray.has(container.id)) continue;
    const { useBy, openedOn } = container;
    const end = computeEffectiveEnd({ useBy, openedOn, inUseLife: product.inUseLife });
    if (isUsableOn(container, end, day)) candidates.push({ container, product, end });
  }
  return candidates;
}

/**
 * Computes once what the checks and suggestions of a tray share. `at` is the instant of the check,
 * ISO 8601; it and the appointment become days in the practice's time zone. Throws a RangeError
 * where either cannot be read or the time zone does not exist.
 */
export function makeCheckContext(told: TrayFacts, at: string): CheckContext {
  const steps = listStepsFor(told.technique.steps, told.teeth);
  return makeContextOf({ ...told, technique: { ...told.technique, steps } }, at);
}

function makeContextOf(facts: TrayFacts, at: string): CheckContext {
  const today = civilDateAt(at, facts.timeZone);
  const appointmentDay = civilDateAt(facts.appointmentAt, facts.timeZone);
  const { items, steps } = gatherItems(facts);
  const served = new Set(steps.filter((one) => one.items.length > 0).map((one) => one.step));
  const lastDay = appointmentDay > today ? appointmentDay : today;
  let shelf: readonly Candidate[] | null = null;
  return {
    facts,
    today,
    appointmentDay,
    lastDay,
    items,
    steps,
    etching: readEtching(facts.technique, (step) => served.has(step)),
    listShelf: () => {
      shelf ??= listUsableShelf(facts, lastDay);
      return shelf;
    },
  };
}
