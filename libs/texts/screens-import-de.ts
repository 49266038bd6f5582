import type { importEn } from "./screens-import-en.ts";

const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** The texts of planning from an appointment list, in German. Own wording. */
export const importDe: typeof importEn = {
  title: "Nach einer Liste planen",
  lead:
    "Tippen Sie die Termine des Tages, oder übernehmen Sie eine Liste als CSV oder iCalendar. " +
    "Geplant wird erst, wenn Sie jede Zeile gesehen haben.",
  text: "Ein Termin je Zeile",
  textHint: "Akte; Zähne; Zeit; Technik; Zimmer. Was nicht dasteht, gilt wie hier gewählt.",
  file: "Oder eine Datei",
  day: "Tag",
  technique: "Technik",
  room: "Zimmer",
  read: "Liste lesen",
  none: "Darin ist kein Termin.",
  lines: (count) => plural(count, "Termin gelesen", "Termine gelesen"),
  skipped: (text, why) => `${text}: ${why}`,
  skippedTitle: "Ausgelassen",
  whys: {
    repeats: "wiederholt sich; planen Sie ihn von Hand",
    "whole-day": "gilt für den ganzen Tag",
    "no-time": "seine Uhrzeit lässt sich nicht lesen",
    cancelled: "ist abgesagt",
    "unknown-zone": "seine Zeitzone ist nicht bekannt",
  },
  line: (line) => `Zeile ${line}`,
  chart: "Akte",
  teeth: "Zähne",
  time: "Zeit",
  usual: (name) => `wie gewählt: ${name}`,
  take: "Übernehmen",
  becomes: (teeth, when) => `Zahn ${teeth}, ${when}`,
  double: (line) => `derselbe Termin wie Zeile ${line}`,
  faults: {
    "no-chart": "keine Aktennummer",
    "no-tooth": "kein Zahn",
    "unknown-tooth": "einer ist kein Zahn",
    "tooth-twice": "ein Zahn steht zweimal da",
    "unknown-technique": "eine Technik dieses Namens gibt es nicht",
    "unknown-room": "ein Zimmer dieses Namens gibt es nicht",
    "no-day": "kein Tag wie 15.6.2026",
    "no-time": "keine Zeit wie 9:30",
    "time-left-out": "die Umstellung auf Sommerzeit lässt diese Zeit aus",
  },
  plan: (count) => `${plural(count, "Termin", "Termine")} planen`,
  outcomes: {
    planned: "geplant",
    "already-planned": "war schon geplant",
    refused: "abgelehnt",
  },
  open: "Öffnen",
  done: (count) => `${plural(count, "Termin ist", "Termine sind")} geplant.`,
};
