/**
 * Whether a product's chemistry fits what a technique does with it. Shared by the checks, which say
 * what is wrong, and by the suggestions, which must never name a container that would be wrong.
 */
import type { CheckSettings, ProductFacts, Technique, TechniqueStep } from "./facts.ts";
import { contents, solvents, type Content, type ProductKind, type Solvent } from "./vocabulary.ts";

/** Why a product's solvents do not fit a step; `solvent` is the one that is too many or missing. */
export interface SolventMisfit {
  reason: "not-stated" | "not-allowed" | "needed";
  solvent: Solvent | null;
}

/**
 * Why the solvents of a product do not fit what the step names, or `null` where they fit or the
 * step names none. Solvents that the entry does not state cannot be verified and so do not fit.
 * Source: self-etch needs water to ionise its acid (J Appl Oral Sci 2010;18(3)); the comparison is
 * our own.
 */
export function findSolventMisfit(
  step: Pick<TechniqueStep, "solventsAllowed" | "solventNeeded">,
  product: Pick<ProductFacts, "solvents">,
): SolventMisfit | null {
  const { solventsAllowed, solventNeeded } = step;
  if (solventsAllowed === null && solventNeeded === null) return null;
  const held = product.solvents;
  if (held === null) return { reason: "not-stated", solvent: null };
  const excess =
    solventsAllowed === null ? undefined : held.find((one) => !solventsAllowed.includes(one));
  if (excess !== undefined) return { reason: "not-allowed", solvent: excess };
  if (solventNeeded !== null && !held.includes(solventNeeded)) {
    return { reason: "needed", solvent: solventNeeded };
  }
  return null;
}

/** How far a planned air-dry falls short, in seconds, and what asks for more. */
export interface DryingGap {
  plannedSeconds: number;
  neededSeconds: number;
  /** The IFU asks; or the practice, for the solvent named, or for the slowest, none stated. */
  reason: "ifu" | "solvent" | "not-stated";
  solvent: Solvent | null;
}

const slowestOfAll: Solvent = "water";

function findSlowest(held: readonly Solvent[]): Solvent | null {
  return held.reduce<Solvent | null>(
    (slowest, one) =>
      slowest === null || solvents.indexOf(one) > solvents.indexOf(slowest) ? one : slowest,
    null,
  );
}

/**
 * How far the air-dry that a step plans falls short of what its product needs, or `null` where it
 * does not. The IFU decides; where it is silent, the practice's time for the slowest solvent of the
 * product, and only at a step that plans an air-dry. A product without solvent then needs none; one
 * whose solvents are not stated is reckoned as water, the slowest. A step that plans no air-dry
 * plans 0 s for a product whose IFU asks for one. Source: IFU first; order of the solvents by
 * vapour pressure (Antoine fits); the practice's times are common practice, no source.
 */
export function findDryingGap(
  step: Pick<TechniqueStep, "airDrySeconds">,
  product: Pick<ProductFacts, "airDrySeconds" | "solvents">,
  practiceSeconds: CheckSettings["airDrySeconds"],
): DryingGap | null {
  const plannedSeconds = step.airDrySeconds ?? 0;
  let gap: DryingGap | null = null;
  if (product.airDrySeconds !== null) {
    const neededSeconds = product.airDrySeconds;
    gap = { plannedSeconds, neededSeconds, reason: "ifu", solvent: null };
  } else if (step.airDrySeconds !== null) {
    const solvent = product.solvents === null ? slowestOfAll : findSlowest(product.solvents);
    if (solvent === null) return null;
    const neededSeconds = practiceSeconds[solvent];
    const reason = product.solvents === null ? "not-stated" : "solvent";
    gap = { plannedSeconds, neededSeconds, reason, solvent };
  }
  return gap !== null && gap.plannedSeconds < gap.neededSeconds ? gap : null;
}

/**
 * Answers whether a step leaves a product on the tooth as long as its IFU asks. A step that plans
 * no application plans 0 s. Source: the product's IFU.
 */
export function isAppliedLongEnough(
  step: Pick<TechniqueStep, "applicationSeconds">,
  product: Pick<ProductFacts, "applicationSeconds">,
): boolean {
  return (step.applicationSeconds ?? 0) >= (product.applicationSeconds ?? 0);
}

const partnerKinds: Partial<Record<ProductKind, readonly ProductKind[]>> = {
  primer: ["adhesive", "universal-adhesive"],
  activator: ["adhesive", "universal-adhesive"],
};

/**
 * Answers whether `first` is a part that must come from the bonding system of `second`: a primer
 * with its adhesive, an activator with its resin. Source: primer and bond come as one validated
 * system, common practice, no source.
 */
export function mustShareSystem(
  first: Pick<ProductFacts, "kind">,
  second: Pick<ProductFacts, "kind">,
): boolean {
  return partnerKinds[first.kind]?.includes(second.kind) ?? false;
}

/** Answers whether a product is a part that must come from the system of some other. As above. */
export function hasPartners(product: Pick<ProductFacts, "kind">): boolean {
  return partnerKinds[product.kind] !== undefined;
}

/**
 * Answers whether two products come from different bonding systems. A part of a stated system and
 * one of no stated system are strangers; of two products without a system nothing is known.
 */
export function isOfOtherSystem(
  first: Pick<ProductFacts, "system">,
  second: Pick<ProductFacts, "system">,
): boolean {
  return first.system?.id !== second.system?.id;
}

/**
 * Answers whether a product leaves eugenol on a surface that is bonded to later: a provisional
 * cement that contains it, at the sealing visit. Source: such a cement lowers the bond of dentin
 * (ksdm1966.com aidx 5683) and of a self-adhesive resin cement (J Appl Oral Sci 2010;18(1)).
 */
export function leavesEugenol(
  technique: Pick<Technique, "visit">,
  product: Pick<ProductFacts, "kind" | "contents">,
): boolean {
  return (
    technique.visit === "sealing" &&
    product.kind === "provisional-cement" &&
    product.contents.includes("eugenol")
  );
}

/**
 * What of a product the patient reacts to, in the order of the vocabulary; empty where nothing is.
 * Of contents that the entry does not state nothing is known. Source: (meth)acrylate patch tests
 * positive in 5.8 % of dental staff and 2.3 % of patients (Goon et al.).
 */
export function listAllergens(
  patient: { allergies: readonly Content[] },
  product: Pick<ProductFacts, "contents">,
): readonly Content[] {
  return contents.filter(
    (one) => patient.allergies.includes(one) && product.contents.includes(one),
  );
}

/** What the technique does with acid, as far as its steps are carried out. */
export interface Etching {
  /** The step at which an acid is rinsed off dentin, or `null`. */
  dentinStep: TechniqueStep | null;
  /** An acid is rinsed off whatever is bonded to. */
  any: boolean;
}

/**
 * What a technique etches. A step counts when it is required or `isServed` says that a container
 * serves it. At the bonding visit the dentin is sealed already, so there any step that takes an
 * etchant counts as etching.
 */
export function readEtching(
  technique: Pick<Technique, "visit" | "steps">,
  isServed: (step: TechniqueStep) => boolean,
): Etching {
  const done = technique.steps.filter((step) => step.required || isServed(step));
  const dentinStep = done.find((step) => step.etchesDentin) ?? null;
  const any =
    dentinStep !== null ||
    (technique.visit === "bonding" && done.some((step) => step.accepts.includes("etchant")));
  return { dentinStep, any };
}

const bondingKinds: readonly ProductKind[] = ["primer", "adhesive", "universal-adhesive"];

/**
 * Why a primer's or adhesive's strategy does not fit the etching of the technique: `etched`, dentin
 * is etched under a self-etch product; `not-etched`, nothing is under an etch-and-rinse one; `null`
 * where it fits, and for universal products, which may do either. Source: class definitions, J Appl
 * Oral Sci 2010;18(3).
 */
export function findStrategyMisfit(
  product: Pick<ProductFacts, "kind" | "strategy">,
  etching: Etching,
): "etched" | "not-etched" | null {
  if (!bondingKinds.includes(product.kind)) return null;
  if (product.strategy === "self-etch" && etching.dentinStep !== null) return "etched";
  if (product.strategy === "etch-and-rinse" && !etching.any) return "not-etched";
  return null;
}

/** The first misfit of a product's strategy on any of the teeth, or `null`. As above. */
export function findMisfitOnTeeth(
  product: Pick<ProductFacts, "kind" | "strategy">,
  etchings: readonly Etching[],
): { reason: "etched" | "not-etched"; etching: Etching } | null {
  for (const etching of etchings) {
    const reason = findStrategyMisfit(product, etching);
    if (reason !== null) return { reason, etching };
  }
  return null;
}
