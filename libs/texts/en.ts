/**
 * English texts: of the trade's words, findings, problems and labels. `{name}` is filled in,
 * `{name|date}` as a date and so on (the formats are in `fill.ts`), and a part in square brackets
 * falls away where what it names is not known. A sentence says what is, then the numbers compared,
 * then what to do; a finding's title is read from two metres.
 */
import type {
  Content,
  ContainerState,
  FindingCode,
  FindingLevel,
  LocationKind,
  ProductKind,
  RecordState,
  RemedyCode,
  Role,
  Solvent,
  Strategy,
  ToothClass,
  TrayState,
  Verdict,
  WithdrawalState,
} from "#domain";
import { labelProblemsEn, scannerFaultsEn } from "./label-problems.ts";
import { paperEn } from "./paper-en.ts";
import { problemsEn } from "./problems.ts";

/** A finding's text; the sentence may depend on the finding's reason. */
export interface FindingText {
  title: string;
  sentence: string | Readonly<Record<string, string>>;
}

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

  or: "or",
  nothing: { solvents: "no solvent", kinds: "no material" },
  units: {
    days: { one: "{count} day", other: "{count} days" },
    months: { one: "{count} month", other: "{count} months" },
    seconds: { one: "{count} s", other: "{count} s" },
  },

  findings: {
    "past-use-by": {
      title: "Expired",
      sentence: "{name}: use by {useBy|date}, today is {today|date}.",
    },
    "past-in-use-life": {
      title: "Open too long",
      sentence:
        "{name}: opened on {openedOn|date}, usable through {usableThrough|date}, " +
        "today is {today|date}.",
    },
    "ends-before-appointment": {
      title: "Ends before the appointment",
      sentence: {
        "use-by": "{name}: use by {end|date}, the appointment is on {appointment|date}.",
        "in-use-life":
          "{name}: once opened usable through {end|date}, the appointment is on " +
          "{appointment|date}.",
      },
    },
    "short-dated": {
      title: "Ends soon",
      sentence: "{name}: {daysLeft|days} left, until {end|date}; the practice wants {limit|days}.",
    },
    withdrawn: {
      title: "Withdrawn",
      sentence: "{name}, lot {lot}: covered by withdrawal {references}.",
    },
    "in-quarantine": {
      title: "In quarantine",
      sentence: "{name} is quarantined. Place: {place}.",
    },
    "not-available": {
      title: "Not available",
      sentence: {
        empty: "{name} is booked as empty.",
        discarded: "{name} is booked as discarded.",
        returned: "{name} is booked as returned to the supplier.",
        lost: "{name} is booked as lost.",
        "other-tray": "{name} stands on another tray: {tray}.",
        "not-received": "{name}: this container was never received here.",
      },
    },
    "label-conflict": {
      title: "Label does not match",
      sentence: {
        "use-by": "{name}: the label says use by {scanned|date}, on file is {stored|date}.",
        "use-by-not-stored": "{name}: the label says use by {scanned|date}, on file is no date.",
        lot: "{name}: the label says lot {scanned}, on file is lot {stored}.",
        serial: "{name}: the label says serial {scanned}, on file is serial {stored}.",
      },
    },
    "wrong-kind": {
      title: "Wrong product",
      sentence: {
        step: "{name} ({kind|kind}) is at “{step}”, which takes: {accepts|kinds}.",
        "no-material": "{name} ({kind|kind}) is at “{step}”, which takes no material.",
        "no-step": "{name} ({kind|kind}) has no place in “{technique}”.",
      },
    },
    missing: {
      title: "Missing",
      sentence: "“{name}” has no container yet. It takes: {accepts|kinds}.",
    },
    "unknown-product": {
      title: "Unknown product",
      sentence: {
        identifier: "{identifier} is in no entry of the catalogue.",
        "no-identifier": "The label names no product: {name}.",
      },
    },
    unconfirmed: {
      title: "Not confirmed",
      sentence: "{product}: no dentist has compared the entry with its instructions for use.",
    },
    "wrong-solvent": {
      title: "Wrong solvent",
      sentence: {
        "not-stated": "{name}: its solvents are not stated, and “{step}” depends on them.",
        "not-allowed":
          "{name} contains {solvent|solvent}; “{step}” allows only: {allowed|solvents}.",
        needed: "{name} contains {solvents|solvents}; “{step}” needs {solvent|solvent}.",
      },
    },
    "drying-too-short": {
      title: "Drying too short",
      sentence: {
        ifu:
          "{name}: {plannedSeconds|seconds} planned, the instructions for use ask for " +
          "{neededSeconds|seconds}.",
        solvent:
          "{name}: {plannedSeconds|seconds} planned, {neededSeconds|seconds} needed for " +
          "{solvent|solvent} (practice setting).",
        "not-stated":
          "{name}: {plannedSeconds|seconds} planned, {neededSeconds|seconds} needed; its " +
          "solvents are not stated and reckoned as {solvent|solvent}.",
      },
    },
    "application-too-short": {
      title: "Application too short",
      sentence:
        "{name}: {plannedSeconds|seconds} planned, the instructions for use ask for " +
        "{neededSeconds|seconds}.",
    },
    "single-use-reused": {
      title: "Used already",
      sentence: "{name} is for one patient and served another on {usedOn|date}.",
    },
    "system-split": {
      title: "Systems mixed",
      sentence: {
        differ: "{name} belongs to {system}, {other} to {otherSystem}.",
        "other-without": "{name} belongs to {system}, {other} to no stated system.",
        "part-without": "{other} belongs to {otherSystem}, {name} to no stated system.",
      },
    },
    "strategy-conflict": {
      title: "Etching does not fit",
      sentence: {
        etched: "{name} is self-etch, but “{step}” etches the dentin.",
        "not-etched": "{name} is etch-and-rinse, but nothing is etched in “{technique}”.",
      },
    },
    eugenol: {
      title: "Eugenol before bonding",
      sentence: "{name} contains eugenol; left on the surface, it can weaken the later bond.",
    },
    allergy: {
      title: "Allergy",
      sentence: "{name} contains what is on this patient's allergy list: {contents|contents}.",
    },
    "earlier-exists": {
      title: "Use another one first",
      sentence: {
        earlier: "{insteadCode} ends on {insteadEnd|date}, {name} on {end|date}.",
        "earlier-than-none": "{insteadCode} ends on {insteadEnd|date}, {name} has no end date.",
        open: "{insteadCode} is open already, {name} is still sealed.",
      },
    },
  } satisfies Record<FindingCode, FindingText>,

  remedies: {
    "take-instead": "Take {insteadCode} ({insteadProduct}) from {insteadPlace}.",
    "get-another": "Get another container; none that fits is on the shelf.",
    discard: "Discard it.",
    quarantine: "Do not use it; put it in quarantine.",
    "scan-missing": "Scan a container for this step.",
    "register-product": "Register the product in the catalogue, or take it off the tray.",
    "receive-first": "Receive it first, or take it off the tray.",
    "check-label": "Compare the printed label with what is on file, and correct what is wrong.",
    "remove-from-tray": "Take it off the tray.",
    "confirm-product": "Have a dentist compare {product} with its instructions for use.",
    "dry-longer": "Air-dry for at least {neededSeconds|seconds} at “{step}”.",
    "apply-longer": "Apply it for at least {neededSeconds|seconds} at “{step}”.",
    "pair-from-one-system": "Use both parts from one system.",
    "change-technique": "Choose a technique that fits the product.",
    "use-soon": "Use it up soon.",
    none: "Nothing to do.",
  } satisfies Record<RemedyCode, string>,

  because: {
    "use-by": "use-by date {value|date}",
    today: "today {value|date}",
    "opened-on": "opened on {value|date}",
    "in-use-life-days": "usable after opening for {value|days}",
    "in-use-life-months": "usable after opening for {value|months}",
    "usable-through": "usable through {value|date}",
    appointment: "appointment {value|date}",
    "days-left": "{value|days} left",
    "short-dated-days": "at least {value|days} wanted",
    withdrawal: "withdrawal {value}",
    place: "place {value}",
    state: "state: {value|absence}",
    "other-tray": "other tray {value}",
    lot: "lot {value}",
    serial: "serial {value}",
    kind: "kind: {value|kind}",
    technique: "technique {value}",
    "accepted-kinds": "takes: {value|kinds}",
    identifier: "identifier {value}",
    entry: "entry {value} not confirmed",
    solvents: "contains {value|solvents}",
    "allowed-solvents": "allowed: {value|solvents}",
    "needed-solvent": "needs {value|solvent}",
    "planned-air-dry": "air-dry planned {value|seconds}",
    "needed-air-dry": "air-dry needed {value|seconds}",
    "planned-application": "application planned {value|seconds}",
    "needed-application": "application needed {value|seconds}",
    "used-for-other": "used for another patient on {value|date}",
    "slowest-solvent": "slowest solvent {value|solvent}",
    system: "system {value}",
    strategy: "strategy: {value|strategy}",
    content: "contains {value|content}",
    contents: "contains {value|contents}",
    allergies: "allergy list: {value|contents}",
    "etch-step": "dentin is etched at “{value}”",
    "other-end": "the other ends on {value|date}",
    "this-end": "this one ends on {value|date}",
  },
  sources: {
    ifu: "instructions for use",
    technique: "technique",
    practice: "practice",
    label: "label",
    stock: "stock",
    reading: "clock",
    withdrawal: "withdrawal",
    patient: "patient's chart",
  },

  problems: problemsEn,
  labelProblems: labelProblemsEn,
  scannerFaults: scannerFaultsEn,
  paper: paperEn,

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
