/** German texts, in the shape of the English ones; see there for how they are filled in. */
import type { Messages } from "./en.ts";
import { findingsDe } from "./findings-de.ts";
import { labelProblemsDe, scannerFaultsDe } from "./label-problems-de.ts";
import { problemsDe } from "./problems-de.ts";
import { recordEventsDe } from "./record-events-de.ts";

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
  toothBeside: "überzählig neben: {tooth}",

  or: "oder",
  nothing: { solvents: "kein Lösungsmittel", kinds: "kein Material" },
  units: {
    days: { one: "{count} Tag", other: "{count} Tage" },
    months: { one: "{count} Monat", other: "{count} Monate" },
    minutes: { one: "{count} Minute", other: "{count} Minuten" },
    seconds: { one: "{count} s", other: "{count} s" },
  },

  ...findingsDe,

  problems: problemsDe,
  labelProblems: labelProblemsDe,
  scannerFaults: scannerFaultsDe,
  recordEvents: recordEventsDe,

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
