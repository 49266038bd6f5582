import {
  makeCheckContext,
  type Candidate,
  type CheckContext,
  type CheckedItem,
} from "./check-context.ts";
import { showContainerCode } from "./container-code.ts";
import type { PlaceFacts, ProductFacts, TechniqueStep, TrayFacts } from "./facts.ts";
import {
  findDryingGap,
  findSolventMisfit,
  findMisfitOnTeeth,
  isAppliedLongEnough,
  isOfOtherSystem,
  leavesEugenol,
  listAllergens,
  mustShareSystem,
} from "./step-fit.ts";

function compareTexts(first: string, second: string): number {
  return first < second ? -1 : Number(first > second);
}

/**
 * Compares two containers by which should be used up first: negative where `first` should. First
 * expired first out by effective end, one without an end last; on a tie open before sealed.
 * Source: FEFO, common practice, no source.
 */
export function compareByUse(
  first: Pick<Candidate, "container" | "end">,
  second: Pick<Candidate, "container" | "end">,
): number {
  const byEnd = compareTexts(first.end?.date ?? "no end", second.end?.date ?? "no end");
  if (byEnd !== 0) return byEnd;
  return Number(first.container.state !== "open") - Number(second.container.state !== "open");
}

/**
 * Puts containers in the order in which to take them: as `compareByUse` says, those at the place
 * `here` before others, then by code, so that the order never depends on how they were read.
 */
export function rankCandidates(
  candidates: readonly Candidate[],
  here: PlaceFacts | null,
): readonly Candidate[] {
  const away = (one: Candidate): number => Number(one.container.place.id !== here?.id);
  return [...candidates].sort(
    (a, b) =>
      compareByUse(a, b) ||
      away(a) - away(b) ||
      compareTexts(a.container.code, b.container.code) ||
      compareTexts(a.container.id, b.container.id),
  );
}

function fitsStep(context: CheckContext, step: TechniqueStep, product: ProductFacts): boolean {
  return (
    step.accepts.includes(product.kind) &&
    findSolventMisfit(step, product) === null &&
    findDryingGap(step, product, context.facts.settings.airDrySeconds) === null &&
    isAppliedLongEnough(step, product) &&
    !leavesEugenol(context.facts.technique, product) &&
    listAllergens(context.facts.patient, product).length === 0 &&
    findMisfitOnTeeth(product, context.etchings) === null
  );
}

function fitsSystems(product: ProductFacts, others: readonly CheckedItem[]): boolean {
  return others.every(({ product: other }) => {
    if (other === null) return true;
    const tied = mustShareSystem(product, other) || mustShareSystem(other, product);
    return !tied || !isOfOtherSystem(product, other);
  });
}

/**
 * Containers on the shelf that could serve all of `steps`, best first: usable today and at the
 * appointment, of a kind, solvent, drying time and strategy that fit, without eugenol where bonding
 * follows and without what the patient reacts to, and of one system with what else is on the tray.
 * `replaced` is the item they would take the place of, if any.
 */
export function listCandidates(
  context: CheckContext,
  steps: readonly TechniqueStep[],
  replaced: CheckedItem | null,
): readonly Candidate[] {
  const others = context.items.filter((item) => item !== replaced);
  return rankCandidates(
    context
      .listShelf()
      .filter(
        ({ product }) =>
          steps.every((step) => fitsStep(context, step, product)) && fitsSystems(product, others),
      ),
    context.facts.place,
  );
}

/**
 * The container to take in place of an item at all the steps it serves, or `null` where the shelf
 * has none that is wanted; another container of the same product before one of another product.
 */
export function findInstead(
  context: CheckContext,
  item: CheckedItem,
  isWanted: (candidate: Candidate) => boolean = () => true,
): Candidate | null {
  if (item.steps.length === 0) return null;
  const candidates = listCandidates(context, item.steps, item).filter(isWanted);
  return candidates.find(({ product }) => product.id === item.product?.id) ?? candidates[0] ?? null;
}

/** The names under which a remedy mentions a better container; none where there is none. */
export function nameInstead(candidate: Candidate | null): Record<string, string> {
  if (candidate === null) return {};
  return {
    insteadContainerId: candidate.container.id,
    insteadCode: showContainerCode(candidate.container.code),
    insteadProduct: candidate.product.name,
    insteadPlace: candidate.container.place.name,
  };
}

/** A container worth fetching for a step. */
export type Suggestion = Candidate;

/** Those of preferred products before others, in the order of preference; else as they stand. */
function preferProducts(
  candidates: readonly Candidate[],
  preferred: readonly string[],
): readonly Candidate[] {
  const rankOf = ({ product }: Candidate): number => {
    const place = preferred.indexOf(product.id);
    return place === -1 ? preferred.length : place;
  };
  // Sorting is stable: within a product the order stays.
  return [...candidates].sort((a, b) => rankOf(a) - rankOf(b));
}

/**
 * Which containers to fetch for a step of a tray, best first: products that its template prefers
 * before others, then first expired first out by effective end, open before sealed, this operatory
 * before others. Only such as would raise no stop at that
 * step: not past on the day of the appointment, sealed or open, on a shelf outside quarantine, not
 * on this tray, fitting in kind, solvent, drying time, strategy and system. `at` is an instant,
 * ISO 8601. Empty for a step that the technique does not have.
 */
export function suggestContainers(
  facts: TrayFacts,
  stepKey: string,
  at: string,
): readonly Suggestion[] {
  const context = makeCheckContext(facts, at);
  const step = context.facts.technique.steps.find((one) => one.key === stepKey);
  if (step === undefined) return [];
  return preferProducts(listCandidates(context, [step], null), facts.preferred[stepKey] ?? []);
}
