/** German texts, in the shape of the English ones; see there for how they are filled in. */
import type { Messages } from "./en.ts";
import { labelProblemsDe, scannerFaultsDe } from "./label-problems.ts";
import { paperDe } from "./paper-de.ts";
import { problemsDe } from "./problems.ts";

/** Every text but those of the screens, in German. */
export const de: Messages = {
  verdicts: { stop: "Stopp", caution: "Vorsicht", clear: "Frei" },
  levels: { stop: "Stopp", caution: "Vorsicht", info: "Hinweis" },

  productKinds: {
    etchant: "Ätzgel",
    primer: "Primer",
    adhesive: "Adhäsiv",
    "universal-adhesive": "Universaladhäsiv",
    activator: "Aktivator",
    flowable: "fließfähiges Komposit",
    composite: "Komposit",
    "glycerin-gel": "Glyceringel",
    "other-barrier": "andere Sauerstoffsperre",
    "separating-agent": "Isoliermittel",
    "provisional-cement": "provisorischer Zement",
    "bonding-cement": "Befestigungszement",
    "surface-cleaner": "Oberflächenreiniger",
  },
  solvents: {
    acetone: "Aceton",
    ethanol: "Ethanol",
    "tert-butanol": "tert-Butanol",
    water: "Wasser",
  },
  strategies: {
    "etch-and-rinse": "Ätzen und Abspülen",
    "self-etch": "selbstätzend",
    universal: "universell",
  },
  contents: {
    hema: "HEMA",
    "bis-gma": "Bis-GMA",
    udma: "UDMA",
    tegdma: "TEGDMA",
    mdp: "MDP",
    "other-methacrylate": "ein anderes Methacrylat",
    eugenol: "Eugenol",
    silane: "Silan",
  },
  containerStates: {
    sealed: "verschlossen",
    open: "offen",
    empty: "leer",
    discarded: "entsorgt",
    returned: "zurückgesandt",
    lost: "verloren",
    quarantined: "in Quarantäne",
  },
  absences: {
    empty: "leer",
    discarded: "entsorgt",
    returned: "zurückgesandt",
    lost: "verloren",
    "not-received": "nie eingegangen",
  },
  locationKinds: {
    store: "Lager",
    refrigerator: "Kühlschrank",
    operatory: "Behandlungszimmer",
    quarantine: "Quarantäne",
    supplier: "Lieferant",
    used: "verbraucht",
    discarded: "entsorgt",
    returned: "zurückgesandt",
    lost: "verloren",
    "count-difference": "Zähldifferenz",
  },
  trayStates: {
    planned: "geplant",
    setting: "wird gerichtet",
    ready: "bereit",
    "in-use": "in Gebrauch",
    cleared: "abgeräumt",
  },
  recordStates: { draft: "Entwurf", signed: "unterschrieben", superseded: "ersetzt" },
  withdrawalStates: {
    received: "eingegangen",
    tracing: "wird verfolgt",
    segregated: "ausgesondert",
    contacting: "wird benachrichtigt",
    closed: "abgeschlossen",
  },
  roles: {
    assistant: "Assistenz",
    dentist: "Zahnärztin/Zahnarzt",
    office: "Büro",
    owner: "Inhaberin/Inhaber",
  },
  toothClasses: {
    "central-incisor": "mittlerer Schneidezahn",
    "lateral-incisor": "seitlicher Schneidezahn",
    canine: "Eckzahn",
    "first-premolar": "erster Prämolar",
    "second-premolar": "zweiter Prämolar",
    "first-molar": "erster Molar",
    "second-molar": "zweiter Molar",
    "third-molar": "dritter Molar",
  },
  toothPlaces: {
    "upper-right": "oben rechts",
    "upper-left": "oben links",
    "lower-left": "unten links",
    "lower-right": "unten rechts",
  },
  toothName: { permanent: "{tooth} {place}", primary: "{tooth} {place} (Milchzahn)" },

  or: "oder",
  nothing: { solvents: "kein Lösungsmittel", kinds: "kein Material" },
  units: {
    days: { one: "{count} Tag", other: "{count} Tage" },
    months: { one: "{count} Monat", other: "{count} Monate" },
    seconds: { one: "{count} s", other: "{count} s" },
  },

  findings: {
    "past-use-by": {
      title: "Abgelaufen",
      sentence: "{name}: verwendbar bis {useBy|date}, heute ist der {today|date}.",
    },
    "past-in-use-life": {
      title: "Zu lange offen",
      sentence:
        "{name}: geöffnet am {openedOn|date}, verwendbar bis {usableThrough|date}, heute ist der " +
        "{today|date}.",
    },
    "ends-before-appointment": {
      title: "Endet vor dem Termin",
      sentence: {
        "use-by": "{name}: verwendbar bis {end|date}, der Termin ist am {appointment|date}.",
        "in-use-life":
          "{name}: nach dem Öffnen verwendbar bis {end|date}, der Termin ist am " +
          "{appointment|date}.",
      },
    },
    "short-dated": {
      title: "Endet bald",
      sentence: "{name}: noch {daysLeft|days}, bis {end|date}; die Praxis verlangt {limit|days}.",
    },
    withdrawn: {
      title: "Zurückgerufen",
      sentence: "{name}, Charge {lot}: betroffen vom Rückruf {references}.",
    },
    "in-quarantine": {
      title: "In Quarantäne",
      sentence: "{name} ist gesperrt. Ort: {place}.",
    },
    "not-available": {
      title: "Nicht verfügbar",
      sentence: {
        empty: "{name} ist als leer gebucht.",
        discarded: "{name} ist als entsorgt gebucht.",
        returned: "{name} ist als an den Lieferanten zurückgesandt gebucht.",
        lost: "{name} ist als verloren gebucht.",
        "other-tray": "{name} steht auf einem anderen Tray: {tray}.",
        "not-received": "{name}: Dieser Behälter ist hier nie eingegangen.",
      },
    },
    "label-conflict": {
      title: "Etikett passt nicht",
      sentence: {
        "use-by":
          "{name}: Das Etikett sagt verwendbar bis {scanned|date}, erfasst ist {stored|date}.",
        "use-by-not-stored":
          "{name}: Das Etikett sagt verwendbar bis {scanned|date}, erfasst ist kein Datum.",
        lot: "{name}: Das Etikett sagt Charge {scanned}, erfasst ist Charge {stored}.",
        serial: "{name}: Das Etikett sagt Seriennummer {scanned}, erfasst ist {stored}.",
      },
    },
    "wrong-kind": {
      title: "Falsches Produkt",
      sentence: {
        step: "{name} ({kind|kind}) steht bei „{step}“. Dorthin gehört: {accepts|kinds}.",
        "no-material": "{name} ({kind|kind}) steht bei „{step}“. Dorthin gehört kein Material.",
        "no-step": "{name} ({kind|kind}) hat keinen Platz in „{technique}“.",
      },
    },
    missing: {
      title: "Fehlt",
      sentence: "Für „{name}“ fehlt der Behälter. Dorthin gehört: {accepts|kinds}.",
    },
    "unknown-product": {
      title: "Unbekanntes Produkt",
      sentence: {
        identifier: "{identifier} steht in keinem Eintrag des Katalogs.",
        "no-identifier": "Das Etikett nennt kein Produkt: {name}.",
      },
    },
    unconfirmed: {
      title: "Nicht bestätigt",
      sentence:
        "{product}: Den Eintrag hat noch keine Zahnärztin und kein Zahnarzt mit der " +
        "Gebrauchsanweisung verglichen.",
    },
    "wrong-solvent": {
      title: "Falsches Lösungsmittel",
      sentence: {
        "not-stated": "{name}: Das Lösungsmittel ist nicht angegeben, und „{step}“ hängt davon ab.",
        "not-allowed":
          "{name} enthält {solvent|solvent}; „{step}“ erlaubt nur: {allowed|solvents}.",
        needed: "{name} enthält {solvents|solvents}; „{step}“ braucht {solvent|solvent}.",
      },
    },
    "drying-too-short": {
      title: "Trocknung zu kurz",
      sentence: {
        ifu:
          "{name}: {plannedSeconds|seconds} geplant, die Gebrauchsanweisung verlangt " +
          "{neededSeconds|seconds}.",
        solvent:
          "{name}: {plannedSeconds|seconds} geplant, {neededSeconds|seconds} nötig für " +
          "{solvent|solvent} (Vorgabe der Praxis).",
        "not-stated":
          "{name}: {plannedSeconds|seconds} geplant, {neededSeconds|seconds} nötig; das " +
          "Lösungsmittel ist nicht angegeben und gilt als {solvent|solvent}.",
      },
    },
    "application-too-short": {
      title: "Einwirkzeit zu kurz",
      sentence:
        "{name}: {plannedSeconds|seconds} geplant, die Gebrauchsanweisung verlangt " +
        "{neededSeconds|seconds}.",
    },
    "single-use-reused": {
      title: "Schon benutzt",
      sentence:
        "{name} ist für eine einzige Behandlung bestimmt und wurde am {usedOn|date} bei " +
        "jemand anderem verwendet.",
    },
    "system-split": {
      title: "Systeme gemischt",
      sentence: {
        differ: "{name} gehört zu {system}, {other} zu {otherSystem}.",
        "other-without": "{name} gehört zu {system}, für {other} ist kein System angegeben.",
        "part-without": "{other} gehört zu {otherSystem}, für {name} ist kein System angegeben.",
      },
    },
    "strategy-conflict": {
      title: "Ätzung passt nicht",
      sentence: {
        etched: "{name} ist selbstätzend, aber „{step}“ ätzt das Dentin.",
        "not-etched":
          "{name} verlangt Ätzen und Abspülen, aber in „{technique}“ wird nicht geätzt.",
      },
    },
    eugenol: {
      title: "Eugenol vor dem Befestigen",
      sentence:
        "{name} enthält Eugenol; Reste auf der Oberfläche können die spätere Haftung schwächen.",
    },
    allergy: {
      title: "Allergie",
      sentence: "{name} enthält, was auf der Allergieliste steht: {contents|contents}.",
    },
    "earlier-exists": {
      title: "Anderen zuerst aufbrauchen",
      sentence: {
        earlier: "{insteadCode} endet am {insteadEnd|date}, {name} am {end|date}.",
        "earlier-than-none": "{insteadCode} endet am {insteadEnd|date}, {name} hat kein Enddatum.",
        open: "{insteadCode} ist schon offen, {name} noch verschlossen.",
      },
    },
  },

  remedies: {
    "take-instead": "Nehmen Sie {insteadCode} ({insteadProduct}). Ort: {insteadPlace}.",
    "get-another": "Besorgen Sie einen anderen Behälter; im Regal steht kein passender.",
    discard: "Entsorgen Sie den Behälter.",
    quarantine: "Nicht verwenden! Stellen Sie den Behälter in Quarantäne.",
    "scan-missing": "Scannen Sie einen Behälter für diesen Schritt.",
    "register-product":
      "Nehmen Sie das Produkt in den Katalog auf oder den Behälter vom Tray herunter.",
    "receive-first": "Buchen Sie den Behälter zuerst ein oder nehmen Sie ihn vom Tray herunter.",
    "check-label":
      "Vergleichen Sie das gedruckte Etikett mit dem Erfassten. Berichtigen Sie, was falsch ist.",
    "remove-from-tray": "Nehmen Sie den Behälter vom Tray herunter.",
    "confirm-product": "Lassen Sie {product} zahnärztlich mit der Gebrauchsanweisung vergleichen.",
    "dry-longer": "Trocknen Sie bei „{step}“ mindestens {neededSeconds|seconds} mit Luft.",
    "apply-longer": "Lassen Sie es bei „{step}“ mindestens {neededSeconds|seconds} einwirken.",
    "pair-from-one-system": "Verwenden Sie beide Teile aus einem System.",
    "change-technique": "Wählen Sie eine Technik, die zum Produkt passt.",
    "use-soon": "Brauchen Sie den Behälter bald auf.",
    none: "Nichts zu tun.",
  },

  because: {
    "use-by": "verwendbar bis {value|date}",
    today: "heute {value|date}",
    "opened-on": "geöffnet am {value|date}",
    "in-use-life-days": "Verwendbarkeit nach dem Öffnen: {value|days}",
    "in-use-life-months": "Verwendbarkeit nach dem Öffnen: {value|months}",
    "usable-through": "verwendbar bis {value|date}",
    appointment: "Termin {value|date}",
    "days-left": "noch {value|days}",
    "short-dated-days": "mindestens {value|days} verlangt",
    withdrawal: "Rückruf {value}",
    place: "Ort {value}",
    state: "Zustand: {value|absence}",
    "other-tray": "anderes Tray {value}",
    lot: "Charge {value}",
    serial: "Seriennummer {value}",
    kind: "Art: {value|kind}",
    technique: "Technik {value}",
    "accepted-kinds": "dorthin gehört: {value|kinds}",
    identifier: "Kennung {value}",
    entry: "Eintrag {value} nicht bestätigt",
    solvents: "enthält {value|solvents}",
    "allowed-solvents": "erlaubt: {value|solvents}",
    "needed-solvent": "braucht {value|solvent}",
    "planned-air-dry": "Lufttrocknung geplant {value|seconds}",
    "needed-air-dry": "Lufttrocknung nötig {value|seconds}",
    "planned-application": "Einwirkzeit geplant {value|seconds}",
    "needed-application": "Einwirkzeit nötig {value|seconds}",
    "used-for-other": "am {value|date} bei jemand anderem verwendet",
    "slowest-solvent": "langsamstes Lösungsmittel {value|solvent}",
    system: "System {value}",
    strategy: "Strategie: {value|strategy}",
    content: "enthält {value|content}",
    contents: "enthält {value|contents}",
    allergies: "Allergieliste: {value|contents}",
    "etch-step": "Dentin wird bei „{value}“ geätzt",
    "other-end": "der andere endet am {value|date}",
    "this-end": "dieser endet am {value|date}",
  },
  sources: {
    ifu: "Gebrauchsanweisung",
    technique: "Technik",
    practice: "Praxis",
    label: "Etikett",
    stock: "Bestand",
    reading: "Uhr",
    withdrawal: "Rückruf",
    patient: "Patientenakte",
  },

  problems: problemsDe,
  labelProblems: labelProblemsDe,
  scannerFaults: scannerFaultsDe,
  paper: paperDe,

  cautions: {
    aid:
      "Tubule hilft beim Aufzeichnen und Prüfen. Es stellt keine Diagnose und ersetzt weder die " +
      "Gebrauchsanweisung des Herstellers noch die örtlichen Vorschriften noch das Urteil des " +
      "approbierten Behandelnden, die entscheiden.",
    figures:
      "Mitgelieferte Zahlen sind Vorgaben aus üblicher Praxis; die Praxis muss sie anhand der " +
      "Gebrauchsanweisung bestätigen.",
    duties: "Meldepflichten (Vigilanz, Rückrufe) richten sich nach dem örtlichen Recht.",
  },
};
