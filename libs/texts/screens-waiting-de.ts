import type { waitingEn } from "./screens-waiting-en.ts";
import { restorationsDe } from "./restorations.ts";

const days = (count: number): string => `${count} ${count === 1 ? "Tag" : "Tage"}`;
const ofDays = (count: number): string => `${count} ${count === 1 ? "Tag" : "Tagen"}`;

/** The texts of the second visit, in German. */
export const waitingDe: typeof waitingEn = {
  title: "Warten auf die Befestigung",
  lead: "Versiegelte Zähne, deren Restauration noch nicht befestigt ist; wer am längsten wartet, zuerst.",
  toRecords: "Alle Dokumentationen",
  fromRecords: "Warten auf die Befestigung",
  limit: (limit) => `Überfällig nach ${ofDays(limit)}.`,
  lists: { waiting: "Alle, die warten", overdue: "Überfällig", off: "Von der Liste genommen" },
  which: "Welche",
  chart: "Aktennummer",
  search: "Suchen",
  more: "Mehr zeigen",
  empty: {
    waiting: "Kein versiegelter Zahn wartet auf seine Restauration.",
    overdue: "Keine Restauration ist überfällig.",
    off: "Niemand hat einen Zahn von der Liste genommen.",
  },
  tooth: (tooth, chart) => `Zahn ${tooth}, Akte ${chart}`,
  days,
  overdue: "überfällig",
  sealed: (date) => `Versiegelt am ${date}`,
  record: "Dokumentation der Versiegelung",
  cement: (name, lot) =>
    lot === null ? `${name}, Charge nicht gescannt` : `${name}, Charge ${lot}`,
  noCement: "kein provisorischer Zement vermerkt",
  planned: (date) => `Befestigung war für den ${date} geplant`,
  plan: "Befestigung planen",
  visit: (when) => `Befestigung am ${when}`,
  states: {
    planned: "geplant",
    setting: "Tray wird gerichtet",
    ready: "Tray bereit",
    "in-use": "läuft",
    cleared: "vorbei",
  },
  provisionals: {
    none: "kein Provisorium geplant",
    resin: "Provisorium aus Kunststoff",
    other: "Provisorium",
  },
  restorations: restorationsDe,
  needs: {
    title: "Was die versiegelte Oberfläche braucht",
    of: (count) => `Was die Oberfläche braucht (${count})`,
    ifuFirst:
      "In dieser Reihenfolge und so, wie es die Gebrauchsanweisungen von Adhäsivsystem und Zement " +
      "sagen: sie gehen vor. Zahnärztin oder Zahnarzt entscheidet.",
    seal: (date, count) => `Versiegelt am ${date}, ${days(count)} vor der Befestigung`,
    none: "Hier wartet keine Versiegelung dieses Zahns. Vor dem Befestigen die Oberfläche ansehen.",
    source: "Woher das kommt",
  },
  choice: {
    title: "Auf welche Versiegelung wird befestigt?",
    text: "Es wartet keine oder mehr als eine: vor dem Primer für jeden Zahn angeben.",
    first: "Geben Sie zuerst an, auf welche Versiegelung befestigt wird.",
    of: (tooth) => `Zahn ${tooth}`,
    seal: (date) => `versiegelt am ${date}`,
    bonded: (date) => `versiegelt am ${date}, schon befestigt`,
    off: (date) => `versiegelt am ${date}, von der Liste genommen`,
    none: "keine Versiegelung vermerkt",
  },
  off: {
    button: "Von der Liste nehmen",
    title: (tooth, chart) => `Zahn ${tooth}, Akte ${chart}, wartet nicht mehr`,
    text: "Die Dokumentation bleibt. Es bleibt auch, wer den Zahn wann und warum von der Liste nahm.",
    reason: "Warum",
    reasons: {
      "moved-away": "weggezogen",
      "tooth-lost": "Zahn verloren",
      "bonded-elsewhere": "anderswo befestigt",
      other: "etwas anderes",
    },
    note: "Anmerkung",
    noteNeeded: "In wenigen Worten sagen, warum.",
    done: "Von der Liste genommen",
    said: (reason, by, when) => `${reason}, angegeben von ${by}, ${when}`,
    back: "Zurück auf die Liste",
    backDone: "Wieder auf der Liste",
  },
  columns: {
    chart: "Akte",
    tooth: "Zahn",
    sealed: "Versiegelt",
    days: "Tage",
    overdue: "Überfällig",
    restoration: "Restauration",
    provisional: "Provisorium",
    cement: "Provisorischer Zement",
    lot: "Charge des Zements",
    planned: "Befestigung geplant für",
    visit: "Termin der Befestigung",
    needs: "Was die Oberfläche braucht",
    off: "Von der Liste, weil",
  },
  linked: {
    title: "Versiegelung und Befestigung",
    seal: (date, count) =>
      `Auf der Versiegelung, die am ${date} unterschrieben wurde, ${days(count)} davor`,
    noSeal: "Auf keiner Versiegelung, die vermerkt ist.",
    bonding: (date, count) => `Nach ${ofDays(count)} befestigt, unterschrieben am ${date}`,
    waits: "Noch nicht befestigt.",
    toSeal: "Dokumentation der Versiegelung öffnen",
    toBonding: "Dokumentation der Befestigung öffnen",
    toWaiting: "Wer wartet",
  },
  today: {
    line: (count) =>
      count === 1 ? "1 Restauration ist überfällig" : `${count} Restaurationen sind überfällig`,
    detail: (longest, limit) =>
      `Vor bis zu ${ofDays(longest)} versiegelt, ohne Tray zur Befestigung · Grenze hier: ${days(limit)}`,
    action: "Wer wartet",
  },
};
