import { listStepsServed } from "./assign-steps.ts";
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
  /** The instant of the check, in milliseconds since 1970. */
  atMs: number;
  /** The civil date of the check and of the appointment, in the practice's time zone. */
  today: string;
  appointmentDay: string;
  /** The later of both: a container must be in date through this day. */
  lastDay: string;
  /** In the order of their ids, so that the order of scanning is irrelevant. */
  items: readonly CheckedItem[];
  /** Every step, in the technique's order, with the items that serve it. */
  steps: readonly { step: TechniqueStep; items: readonly CheckedItem[] }[];
  /** What is etched on each of the teeth. */
  etchings: readonly Etching[];
  /** Containers that could be fetched today and used at the appointment; computed once asked. */
  listShelf: () => readonly Candidate[];
  /** Those of one product. */
  listShelfOf: (productId: string) => readonly Candidate[];
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
  const { steps: listed } = facts.technique;
  const sorted = [...facts.items].sort((a, b) => (a.id < b.id ? -1 : Number(a.id > b.id)));
  const items = sorted.map((item): CheckedItem => ({
    facts: item,
    product: item.product,
    container: item.container,
    steps: listStepsServed(item, listed),
    end: findItemEnd(item),
    name: nameItem(item),
  }));
  const steps = listed.map((step) => ({
    step,
    items: items.filter((item) => item.steps.includes(step)),
  }));
  return { items, steps };
}

/** What is etched on each tooth; one answer for all where no step depends on the tooth. */
function readEtchings(
  { technique, teeth }: TrayFacts,
  isServed: (step: TechniqueStep) => boolean,
): readonly Etching[] {
  if (technique.steps.every(({ when }) => when === null)) return [readEtching(technique, isServed)];
  return teeth.map((tooth) =>
    readEtching({ ...technique, steps: listStepsFor(technique.steps, [tooth]) }, isServed),
  );
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

function groupByProduct(
  candidates: readonly Candidate[],
): ReadonlyMap<string, readonly Candidate[]> {
  const groups = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const group = groups.get(candidate.product.id);
    if (group === undefined) groups.set(candidate.product.id, [candidate]);
    else group.push(candidate);
  }
  return groups;
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
  let shelfByProduct: ReadonlyMap<string, readonly Candidate[]> | null = null;
  const listShelf = (): readonly Candidate[] => {
    shelf ??= listUsableShelf(facts, lastDay);
    return shelf;
  };
  return {
    facts,
    atMs: Date.parse(at),
    today,
    appointmentDay,
    lastDay,
    items,
    steps,
    etchings: readEtchings(facts, (step) => served.has(step)),
    listShelf,
    listShelfOf: (productId) => {
      shelfByProduct ??= groupByProduct(listShelf());
      return shelfByProduct.get(productId) ?? [];
    },
  };
}
