/**
 * What a check is told. Plain data, read once from the database (or kept by a tablet), so that
 * `checkTray` needs neither clock nor database. Civil dates are `YYYY-MM-DD`, instants ISO 8601
 * with `Z`, durations whole seconds.
 */
import type { LightReading } from "./light-output.ts";
import type {
  Content,
  ContainerState,
  FindingLevel,
  LocationKind,
  ProductKind,
  ProvisionalKind,
  Solvent,
  Strategy,
  ToothMode,
} from "./vocabulary.ts";

/** A span the IFU states after opening. Months are added with the day clamped. */
export interface InUseLife {
  count: number;
  unit: "day" | "month";
}

export interface ProductFacts {
  id: string;
  name: string;
  kind: ProductKind;
  /** `[]` is solvent-free; `null` is not stated. */
  solvents: readonly Solvent[] | null;
  strategy: Strategy | null;
  system: { id: string; name: string } | null;
  contents: readonly Content[];
  /** A dentist has compared the entry with its IFU. */
  confirmed: boolean;
  inUseLife: InUseLife | null;
  applicationSeconds: number | null;
  airDrySeconds: number | null;
  cureSeconds: number | null;
  singleUse: boolean;
  /** What the IFU asks of the light, in joules per square centimetre. */
  radiantExposureJCm2: number | null;
  /** How long the IFU lets it warm up after the refrigerator. */
  warmUpMinutes: number | null;
  /** How long a dispensed drop may wait. */
  dropLifeSeconds: number | null;
  /** Filler by weight, and modulus of elasticity. */
  fillerPercent: number | null;
  modulusGpa: number | null;
  /** What an unresolved excursion of its storage temperature means. */
  excursionLevel: "caution" | "stop";
}

export interface PlaceFacts {
  id: string;
  name: string;
  kind: LocationKind;
}

export interface ContainerFacts {
  id: string;
  /** The short code on the practice's own label. */
  code: string;
  productId: string;
  lotId: string;
  lot: string;
  /** Last day of use; of month precision it is the month's last day. `null`: the label has none. */
  useBy: { date: string; precision: "day" | "month" } | null;
  serial: string | null;
  openedOn: string | null;
  state: ContainerState;
  place: PlaceFacts;
}

/** What the scanned label said, as far as it said anything. */
export interface ScannedFacts {
  identifier: string | null;
  lot: string | null;
  serial: string | null;
  useBy: string | null;
}

export interface TrayItemFacts {
  id: string;
  /** The step a person put it at; `null` lets its kind decide. */
  stepKey: string | null;
  scanned: ScannedFacts;
  /** `null`: the identifier is in no catalogue entry. */
  product: ProductFacts | null;
  /** `null`: the product is known, but no such container was ever received here. */
  container: ContainerFacts | null;
  /** Another tray not yet cleared that holds this container. */
  onOtherTray: { id: string; name: string } | null;
  /** The day on which it last served another patient; asked of single-use products alone. */
  usedForOtherOn: string | null;
  /** The code of another container registered under the same serial of the same identifier. */
  serialTakenBy: string | null;
  /** Unresolved excursions of a place that happened while it stood there. */
  excursions: readonly { id: string; place: string; from: string; to: string }[];
  /** When it last left a refrigerator for a warmer place. */
  leftRefrigeratorAt: string | null;
  /** When a drop of it was last dispensed for this tray; chairside alone. */
  dispensedAt: string | null;
  /** Uses that all its product's containers here still give; `null` where nobody set a point. */
  stock: { usesLeft: number; reorderUses: number } | null;
  /** Open withdrawals that cover it. */
  withdrawals: readonly { id: string; reference: string }[];
}

/** When a step applies to a tooth; a part that is `null` asks nothing. All parts must hold. */
export interface StepCondition {
  modes: readonly ToothMode[] | null;
  provisional: ProvisionalKind | null;
  undercut: boolean | null;
}

export interface TechniqueStep {
  key: string;
  name: string;
  /** Kinds that may serve this step; empty for a step that uses no material. */
  accepts: readonly ProductKind[];
  required: boolean;
  /** Every solvent of the product must be among these; `null` allows any. */
  solventsAllowed: readonly Solvent[] | null;
  /** The product must contain this solvent, e.g. water for a self-etch step. */
  solventNeeded: Solvent | null;
  /** An acid is rinsed off dentin at this step. */
  etchesDentin: boolean;
  applicationSeconds: number | null;
  airDrySeconds: number | null;
  cureSeconds: number | null;
  /** `null`: for every tooth. */
  when: StepCondition | null;
  /** How far the light's tip is planned from the target, in tenths of a millimetre. */
  lightDistanceTenthMm: number | null;
  /** The range of a coat measured after the step, in tenths of a millimetre. */
  thicknessTenthMm: { min: number; max: number } | null;
  /** What the technique asks of the coat's material. */
  minFillerPercent: number | null;
  minModulusGpa: number | null;
}

export interface Technique {
  id: string;
  name: string;
  version: number;
  visit: "sealing" | "bonding";
  steps: readonly TechniqueStep[];
}

/** One tooth of a visit. */
export interface ToothFacts {
  /** ISO 3950. */
  tooth: string;
  mode: ToothMode | null;
  provisional: ProvisionalKind;
  undercut: boolean;
}

/** The curing light planned for a tray, as it was last measured. */
export interface LightFacts {
  id: string;
  name: string;
  /** Its own table in the mode planned: the latest reading at each distance; tip first. */
  table: readonly LightReading[];
  /** Day of the latest reading at the tip. */
  readOn: string | null;
}

/** What a bonding visit knows of the seal it builds on. */
export interface SealFacts {
  tooth: string;
  sealedOn: string;
  /** The provisional cement used, if any, and whether it contains eugenol. */
  provisionalCement: { name: string; eugenol: boolean } | null;
}

export interface CheckSettings {
  shortDatedDays: number;
  /** The practice's own air-dry time by slowest solvent, used only where an IFU is silent. */
  airDrySeconds: Readonly<Record<Solvent, number>>;
  /** A light's output above which an exposure is called extreme, in mW/cm2. */
  lightCeilingMwCm2: number;
  /** A light's output below which nothing is cured with it, in mW/cm2. */
  lightFloorMwCm2: number;
  /** Days after which a light is measured again. */
  lightCheckDays: number;
  /** Days that a sealed tooth may wait for its restoration before it is overdue. */
  waitingLimitDays: number;
  /** Codes whose caution the practice has raised to a stop. */
  raised: readonly FindingCode[];
}

export interface TrayFacts {
  timeZone: string;
  settings: CheckSettings;
  technique: Technique;
  /** The planned start of the appointment. */
  appointmentAt: string;
  /** The teeth of the visit, at least one. */
  teeth: readonly ToothFacts[];
  /** `null`: none is chosen and none belongs to the operatory. */
  light: LightFacts | null;
  /** The planned bonding visit and the kinds that it takes; `null` where none is planned. */
  bonding: { on: string; accepts: readonly ProductKind[] } | null;
  /** At a bonding visit, the seals it builds on. */
  seals: readonly SealFacts[];
  /** Coats measured so far; chairside alone. */
  thicknesses: readonly { tooth: string; stepKey: string; tenthMm: number }[];
  patient: {
    /** Contents of products that the patient reacts to. */
    allergies: readonly Content[];
  };
  /** The operatory of the appointment; containers there are preferred. */
  place: PlaceFacts | null;
  items: readonly TrayItemFacts[];
  /**
   * Usable containers elsewhere in the practice of products on the tray, or that could serve it.
   * Whoever reads them leaves out those that stand on a tray or that a withdrawal covers.
   */
  shelf: readonly { container: ContainerFacts; product: ProductFacts }[];
  /** By step key, products to suggest before others: the wish of a template, never a check. */
  preferred: Readonly<Record<string, readonly string[]>>;
}

/** Codes of the checks that exist; the order here has no meaning. */
export const findingCodes = [
  "past-use-by",
  "past-in-use-life",
  "ends-before-appointment",
  "short-dated",
  "withdrawn",
  "in-quarantine",
  "not-available",
  "label-conflict",
  "wrong-kind",
  "missing",
  "unknown-product",
  "unconfirmed",
  "wrong-solvent",
  "drying-too-short",
  "application-too-short",
  "single-use-reused",
  "system-split",
  "strategy-conflict",
  "eugenol",
  "allergy",
  "ends-before-bonding",
  "serial-twice",
  "exposure-too-low",
  "exposure-extreme",
  "light-check-overdue",
  "thickness-range",
  "modulus-or-filler-low",
  "storage-excursion",
  "cold",
  "drop-aging",
  "seal-benefit",
  "blocking-agent",
  "low-after-this",
  "earlier-exists",
] as const;
export type FindingCode = (typeof findingCodes)[number];

/** One number compared, and where it came from. */
export interface Because {
  what: string;
  value: string | number;
  from:
    | "ifu"
    | "technique"
    | "practice"
    | "label"
    | "stock"
    | "reading"
    | "withdrawal"
    | "patient"
    | "light"
    | "record";
}

export interface Finding {
  code: FindingCode;
  level: FindingLevel;
  subject: {
    type: "container" | "product" | "step" | "light" | "tooth";
    itemId: string | null;
    containerId: string | null;
    stepKey: string | null;
    /** What a person calls it: product name and container code, or the step's name. */
    name: string;
  };
  /** The values and names the sentence needs. */
  numbers: Readonly<Record<string, string | number>>;
  /** What to do now; the sentence is made from its code and `numbers`. */
  remedy: { code: RemedyCode; numbers: Readonly<Record<string, string | number>> };
  because: readonly Because[];
  /** Civil date or instant at which it would change by itself. */
  until: string | null;
}

export const remedyCodes = [
  "take-instead",
  "get-another",
  "discard",
  "quarantine",
  "scan-missing",
  "register-product",
  "receive-first",
  "check-label",
  "remove-from-tray",
  "confirm-product",
  "dry-longer",
  "apply-longer",
  "pair-from-one-system",
  "change-technique",
  "use-soon",
  "cure-longer",
  "change-light",
  "measure-light",
  "look-at-coat",
  "settle-excursion",
  "let-warm",
  "fresh-drop",
  "add-separator",
  "clean-surface",
  "reorder",
  "none",
] as const;
export type RemedyCode = (typeof remedyCodes)[number];
