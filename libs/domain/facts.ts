/**
 * What a check is told. Plain data, read once from the database (or kept by a tablet), so that
 * `checkTray` needs neither clock nor database. Civil dates are `YYYY-MM-DD`, instants ISO 8601
 * with `Z`, durations whole seconds.
 */
import type {
  Content,
  ContainerState,
  FindingLevel,
  LocationKind,
  ProductKind,
  Solvent,
  Strategy,
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
  /** Open withdrawals that cover it. */
  withdrawals: readonly { id: string; reference: string }[];
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
}

export interface Technique {
  id: string;
  name: string;
  version: number;
  visit: "sealing" | "bonding";
  steps: readonly TechniqueStep[];
}

export interface CheckSettings {
  shortDatedDays: number;
  /** The practice's own air-dry time by slowest solvent, used only where an IFU is silent. */
  airDrySeconds: Readonly<Record<Solvent, number>>;
  /** Codes whose caution the practice has raised to a stop. */
  raised: readonly FindingCode[];
}

export interface TrayFacts {
  timeZone: string;
  settings: CheckSettings;
  technique: Technique;
  /** The planned start of the appointment. */
  appointmentAt: string;
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
  "earlier-exists",
] as const;
export type FindingCode = (typeof findingCodes)[number];

/** One number compared, and where it came from. */
export interface Because {
  what: string;
  value: string | number;
  from: "ifu" | "technique" | "practice" | "label" | "stock" | "reading" | "withdrawal" | "patient";
}

export interface Finding {
  code: FindingCode;
  level: FindingLevel;
  subject: {
    type: "container" | "product" | "step";
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
  "none",
] as const;
export type RemedyCode = (typeof remedyCodes)[number];
