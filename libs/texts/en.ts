/**
 * English texts: of the trade's words, findings, problems and labels. `{name}` is filled in,
 * `{name|date}` as a date and so on (the formats are in `fill.ts`), and a part in square brackets
 * falls away where what it names is not known. A sentence says what is, then the numbers compared,
 * then what to do; a finding's title is read from two metres.
 */
import type {
  Content,
  ContainerState,
  FindingLevel,
  LocationKind,
  ProductKind,
  RecordState,
  Role,
  Solvent,
  Strategy,
  ToothClass,
  TrayState,
  Verdict,
  WithdrawalState,
} from "#domain";
import { findingsEn } from "./findings-en.ts";
import { labelProblemsEn, scannerFaultsEn } from "./label-problems-en.ts";
import { problemsEn } from "./problems-en.ts";
import { recordEventsEn } from "./record-events-en.ts";

/** Every text but those of the screens, in English. */
export const en = {
  verdicts: {
    stop: "Stop",
    caution: "Caution",
    clear: "Clear",
  } satisfies Record<Verdict, string>,
  levels: { stop: "Stop", caution: "Caution", info: "Note" } satisfies Record<FindingLevel, string>,

  productKinds: {
    etchant: "etchant",
    primer: "primer",
    adhesive: "adhesive",
    "universal-adhesive": "universal adhesive",
    activator: "activator",
    flowable: "flowable resin",
    composite: "composite",
    "glycerin-gel": "glycerin gel",
    "other-barrier": "other oxygen barrier",
    "separating-agent": "separating agent",
    "provisional-cement": "provisional cement",
    "bonding-cement": "bonding cement",
    "surface-cleaner": "surface cleaner",
  } satisfies Record<ProductKind, string>,
  solvents: {
    acetone: "acetone",
    ethanol: "ethanol",
    "tert-butanol": "tert-butanol",
    water: "water",
  } satisfies Record<Solvent, string>,
  strategies: {
    "etch-and-rinse": "etch-and-rinse",
    "self-etch": "self-etch",
    universal: "universal",
  } satisfies Record<Strategy, string>,
  contents: {
    hema: "HEMA",
    "bis-gma": "Bis-GMA",
    udma: "UDMA",
    tegdma: "TEGDMA",
    mdp: "MDP",
    "other-methacrylate": "another methacrylate",
    eugenol: "eugenol",
    silane: "silane",
  } satisfies Record<Content, string>,
  containerStates: {
    sealed: "sealed",
    open: "open",
    empty: "empty",
    discarded: "discarded",
    returned: "returned",
    lost: "lost",
    quarantined: "quarantined",
  } satisfies Record<ContainerState, string>,
  absences: {
    empty: "empty",
    discarded: "discarded",
    returned: "returned",
    lost: "lost",
    "not-received": "never received",
  },
  locationKinds: {
    store: "store",
    refrigerator: "refrigerator",
    operatory: "operatory",
    quarantine: "quarantine",
    supplier: "supplier",
    used: "used up",
    discarded: "discarded",
    returned: "returned",
    lost: "lost",
    "count-difference": "count difference",
  } satisfies Record<LocationKind, string>,
  trayStates: {
    planned: "planned",
    setting: "being set",
    ready: "ready",
    "in-use": "in use",
    cleared: "cleared",
  } satisfies Record<TrayState, string>,
  recordStates: {
    draft: "draft",
    signed: "signed",
    superseded: "superseded",
  } satisfies Record<RecordState, string>,
  withdrawalStates: {
    received: "received",
    tracing: "tracing",
    segregated: "segregated",
    contacting: "contacting",
    closed: "closed",
  } satisfies Record<WithdrawalState, string>,
  roles: {
    assistant: "assistant",
    dentist: "dentist",
    office: "office",
    owner: "owner",
  } satisfies Record<Role, string>,
  toothClasses: {
    "central-incisor": "central incisor",
    "lateral-incisor": "lateral incisor",
    canine: "canine",
    "first-premolar": "first premolar",
    "second-premolar": "second premolar",
    "first-molar": "first molar",
    "second-molar": "second molar",
    "third-molar": "third molar",
  } satisfies Record<ToothClass, string>,
  toothPlaces: {
    "upper-right": "upper right",
    "upper-left": "upper left",
    "lower-left": "lower left",
    "lower-right": "lower right",
  },
  toothName: { permanent: "{place} {tooth}", primary: "{place} primary {tooth}" },
  toothBeside: "supernumerary beside: {tooth}",

  or: "or",
  nothing: { solvents: "no solvent", kinds: "no material" },
  units: {
    days: { one: "{count} day", other: "{count} days" },
    months: { one: "{count} month", other: "{count} months" },
    minutes: { one: "{count} minute", other: "{count} minutes" },
    seconds: { one: "{count} s", other: "{count} s" },
  },

  ...findingsEn,

  problems: problemsEn,
  labelProblems: labelProblemsEn,
  scannerFaults: scannerFaultsEn,
  recordEvents: recordEventsEn,

  cautions: {
    aid:
      "Tubule is a record-keeping and checking aid. It does not diagnose, and it does not " +
      "replace the manufacturer's instructions for use, local regulation, or the judgement of " +
      "the licensed clinician, who decides.",
    figures:
      "Figures shipped with it are common-practice defaults, to be confirmed by the practice " +
      "against the instructions for use.",
    duties: "Reporting duties (vigilance, recalls) follow local law.",
  },
};

/** The shape that every language has. */
export type Messages = typeof en;
