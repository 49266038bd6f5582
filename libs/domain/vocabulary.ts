/**
 * The closed word lists of the trade that database, server, screens and checks share.
 * Each list is the single source of its type.
 */

/** What a product is, by the step that uses it. Trade terms, no source beyond common practice. */
export const productKinds = [
  "etchant",
  "primer",
  "adhesive",
  "universal-adhesive",
  "activator",
  "flowable",
  "composite",
  "glycerin-gel",
  "other-barrier",
  "separating-agent",
  "provisional-cement",
  "bonding-cement",
  "surface-cleaner",
] as const;
export type ProductKind = (typeof productKinds)[number];

/** Volatile parts of a bonding product, fastest to leave first (order of vapour pressure). */
export const solvents = ["acetone", "ethanol", "tert-butanol", "water"] as const;
export type Solvent = (typeof solvents)[number];

/** How a bonding system treats the smear layer. */
export const strategies = ["etch-and-rinse", "self-etch", "universal"] as const;
export type Strategy = (typeof strategies)[number];

/** How a tooth is treated where the product leaves the choice; chosen for each tooth. */
export const toothModes = ["self-etch", "selective-enamel-etch", "etch-and-rinse"] as const;
export type ToothMode = (typeof toothModes)[number];

/** What covers the tooth until its restoration: a resin sticks to the seal unless kept apart. */
export const provisionalKinds = ["none", "resin", "other"] as const;
export type ProvisionalKind = (typeof provisionalKinds)[number];

/** Restorations made outside the mouth, each with its own sealed area. Trade terms. */
export const restorationKinds = [
  "inlay",
  "onlay",
  "overlay",
  "partial-crown",
  "full-crown",
  "veneer",
  "endocrown",
] as const;
export type RestorationKind = (typeof restorationKinds)[number];

/** Contents that matter for allergy. */
export const contents = [
  "hema",
  "bis-gma",
  "udma",
  "tegdma",
  "mdp",
  "other-methacrylate",
  "eugenol",
  "silane",
] as const;
export type Content = (typeof contents)[number];

/** Places a container can be; the last six are outside the practice's shelves. */
export const shelfKinds = ["store", "refrigerator", "operatory", "quarantine"] as const;
export const outsideKinds = [
  "supplier",
  "used",
  "discarded",
  "returned",
  "lost",
  "count-difference",
] as const;
export const locationKinds = [...shelfKinds, ...outsideKinds] as const;
export type LocationKind = (typeof locationKinds)[number];

export const containerStates = [
  "sealed",
  "open",
  "empty",
  "discarded",
  "returned",
  "lost",
  "quarantined",
] as const;
export type ContainerState = (typeof containerStates)[number];

export const trayStates = ["planned", "setting", "ready", "in-use", "cleared"] as const;
export type TrayState = (typeof trayStates)[number];

export const recordStates = ["draft", "signed", "superseded"] as const;
export type RecordState = (typeof recordStates)[number];

/** Why there is a later version: something to add, or the earlier one is declared wrong. */
export const amendments = ["addition", "correction"] as const;
export type Amendment = (typeof amendments)[number];

export const withdrawalStates = [
  "received",
  "tracing",
  "segregated",
  "contacting",
  "closed",
] as const;
export type WithdrawalState = (typeof withdrawalStates)[number];

export const roles = ["assistant", "dentist", "office", "owner"] as const;
export type Role = (typeof roles)[number];

/** Worst first. */
export const findingLevels = ["stop", "caution", "info"] as const;
export type FindingLevel = (typeof findingLevels)[number];
export const verdicts = ["stop", "caution", "clear"] as const;
export type Verdict = (typeof verdicts)[number];

/** The parts of a step that have a time, in the order of the work. */
export const timedParts = ["application", "air-dry", "cure"] as const;
export type TimedPart = (typeof timedParts)[number];

/** What is done otherwise than planned and told by one tap; `other` is told in words. */
export const deviations = ["blood", "saliva", "primed-again", "dropped", "other"] as const;
export type Deviation = (typeof deviations)[number];
