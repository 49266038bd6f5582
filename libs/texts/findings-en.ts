import type { FindingCode, RemedyCode } from "#domain";

/** A finding's text; the sentence may depend on the finding's reason. */
export interface FindingText {
  title: string;
  sentence: string | Readonly<Record<string, string>>;
}

/** What the checks find and what to do, in English. The rules for texts stand in `en.ts`. */
export const findingsEn = {
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
      title: "Eugenol and bonding",
      sentence: {
        planned: "{name} contains eugenol; left on the surface, it can weaken the later bond.",
        used: "Tooth {tooth}: {cement} contains eugenol and stood on the seal since {sealedOn|date}.",
        free:
          "Tooth {tooth}: {cement} stood on the seal since {sealedOn|date}; without eugenol, too, " +
          "the surface needs conditioning.",
      },
    },
    allergy: {
      title: "Allergy",
      sentence: "{name} contains what is on this patient's allergy list: {contents|contents}.",
    },
    "ends-before-bonding": {
      title: "Ends before the bonding visit",
      sentence: {
        "use-by": "{name}: use by {end|date}, the bonding visit is on {bonding|date}.",
        "in-use-life":
          "{name}: once opened usable through {end|date}, the bonding visit is on {bonding|date}.",
      },
    },
    "serial-twice": {
      title: "Serial there twice",
      sentence: "{name}: serial {serial} is registered on {other} already.",
    },
    "exposure-too-low": {
      title: "Too little light",
      sentence: {
        measured:
          "{name}: {seconds|seconds} with {light} give {givenJ} J/cm², needed are {neededJ} " +
          "J/cm² ({irradiance} mW/cm² measured at {distanceMm} mm).",
        between:
          "{name}: {seconds|seconds} with {light} give {givenJ} J/cm², needed are {neededJ} " +
          "J/cm² ({irradiance} mW/cm² between two readings, at {distanceMm} mm).",
        estimate:
          "{name}: {seconds|seconds} with {light} give some {givenJ} J/cm², needed are {neededJ} " +
          "J/cm² (estimate: {irradiance} mW/cm², not measured at {distanceMm} mm).",
      },
    },
    "exposure-extreme": {
      title: "Extreme light",
      sentence: {
        output: "{name} gives {output} mW/cm²; the practice's ceiling is {ceiling} mW/cm².",
        short: "“{name}” cures {seconds|seconds}; below {limit|seconds} a cure may not hold.",
      },
    },
    "light-check-overdue": {
      title: "Light not measured",
      sentence: {
        never: "{name} was never measured at its tip.",
        overdue:
          "{name} was last measured on {readOn|date}, {days|days} ago; the practice wants it " +
          "within {limit|days}.",
        weak: "{name} gives {output} mW/cm² at its tip; the practice wants at least {floor} mW/cm².",
      },
    },
    "thickness-range": {
      title: "Coat out of range",
      sentence: {
        thin: "{name}: {measuredMm} mm measured, at least {minMm} mm wanted.",
        thick: "{name}: {measuredMm} mm measured, at most {maxMm} mm wanted.",
      },
    },
    "modulus-or-filler-low": {
      title: "Coat too weak",
      sentence: {
        filler: "{name} has {held} % filler, the technique asks for {needed} %.",
        "filler-not-stated":
          "{name}: its filler is not stated, and the technique asks for {needed} %.",
        modulus: "{name} has a modulus of {held} GPa, the technique asks for {needed} GPa.",
        "modulus-not-stated":
          "{name}: its modulus is not stated, and the technique asks for {needed} GPa.",
      },
    },
    "storage-excursion": {
      title: "Stored out of range",
      sentence: {
        day: "{name} stood in {place} while its temperature was out of range on {from|date}.",
        days:
          "{name} stood in {place} while its temperature was out of range from {from|date} to " +
          "{to|date}.",
      },
    },
    cold: {
      title: "Still cold",
      sentence: "{name} needs {minutes|minutes} out of the refrigerator, {minutesLeft} more.",
    },
    "drop-aging": {
      title: "Drop too old",
      sentence:
        "{name}: the drop is {ageSeconds|seconds} old, the instructions for use allow " +
        "{lifeSeconds|seconds}.",
    },
    "seal-benefit": {
      title: "No gain shown",
      sentence: {
        "etch-and-rinse":
          "{name} etches, primes and bonds in two steps; pooled studies found no advantage of " +
          "sealing at once with such a system.",
        "self-etch":
          "{name} is self-etch in one step; pooled studies found no advantage of sealing at once " +
          "with such a system.",
      },
    },
    "blocking-agent": {
      title: "Not kept apart",
      sentence: {
        "no-glycerin": "{name} ({kind|kind}) is at “{step}”, which is done under glycerin gel.",
        "no-separator":
          "Tooth {tooth} gets a resin provisional, and no separating agent is on the tray.",
      },
    },
    "low-after-this": {
      title: "Running low",
      sentence:
        "{product}: {left} uses left after this visit; the practice reorders below {reorderUses}.",
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
    "cure-longer": "Cure for at least {enoughSeconds|seconds} at “{step}”.",
    "change-light": "Take another light, or have {light} looked at.",
    "measure-light": "Measure {light} with the radiometer and enter the reading.",
    "look-at-coat": "Look at the coat once more and note what was done.",
    "settle-excursion":
      "Have a dentist decide what the excursion in {place} means, or take one that stood elsewhere.",
    "let-warm": "Leave it out for another {minutesLeft|minutes}.",
    "fresh-drop": "Dispense a fresh drop.",
    "add-separator": "Scan a separating agent, or choose a technique with that step.",
    "clean-surface": "Clean and condition the surface of tooth {tooth} before bonding.",
    reorder: "Order {product}.",
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
    "bonding-visit": "bonding visit {value|date}",
    "other-container": "registered on {value}",
    "planned-cure": "cure planned {value|seconds}",
    irradiance: "{value} mW/cm²",
    "light-distance": "at {value} mm",
    "needed-exposure": "{value} J/cm² needed",
    "light-ceiling": "at most {value} mW/cm²",
    "light-floor": "at least {value} mW/cm²",
    "light-read": "measured on {value|date}",
    "light-days": "every {value|days}",
    "measured-thickness": "{value} mm measured",
    thinnest: "at least {value} mm",
    thickest: "at most {value} mm",
    filler: "filler {value} %",
    "filler-needed": "at least {value} % filler",
    modulus: "modulus {value} GPa",
    "modulus-needed": "at least {value} GPa",
    excursion: "excursion on {value|date}",
    "warm-up": "warms up for {value|minutes}",
    "drop-age": "drop {value|seconds} old",
    "drop-life": "drop good for {value|seconds}",
    "resin-provisional": "resin provisional, tooth {value}",
    "provisional-cement": "provisional cement {value}",
    "uses-left": "{value} uses left",
    "reorder-uses": "reorder below {value} uses",
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
    light: "radiometer",
    record: "record",
  },
};
