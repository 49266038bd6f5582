import type { liveEn } from "./screens-live-en.ts";

/** The texts about what changes by itself, in German. Own wording. */
export const liveDe: typeof liveEn = {
  title: "Die Prüfung hat sich von selbst geändert",
  told: (count) =>
    count === 1
      ? "Die Prüfung eines Trays hat sich geändert"
      : `Die Prüfung von ${count} Trays hat sich geändert`,
  look: "Ansehen",
  line: (teeth, chart) => `Zahn ${teeth}, Karte ${chart}`,
  from: (before, after) => `war ${before}, jetzt ${after}`,
  causes: {
    "day-begun": "ein neuer Tag hat begonnen",
    "withdrawal-opened": "ein Rückruf wurde erfasst",
    "withdrawal-closed": "ein Rückruf wurde abgeschlossen",
    "excursion-opened": "eine Temperaturabweichung wurde erfasst",
    "excursion-resolved": "eine Temperaturabweichung wurde geklärt",
    "product-changed": "ein Produkt wurde geändert",
    "product-confirmed": "ein Produkt wurde bestätigt",
    "checks-changed": "die Vorgaben der Prüfungen wurden geändert",
    "allergies-changed": "die Allergien eines Menschen wurden geändert",
    "light-read": "eine Polymerisationslampe wurde gemessen",
    "light-changed": "eine Polymerisationslampe wurde geändert",
  },
  statistics: {
    title: "Wie oft ein Befund übergangen wurde",
    lead: "Eine Warnung, die fast immer übergangen wird, liest niemand mehr.",
    none: "Noch wurde nichts gefunden.",
    columns: {
      month: "Monat",
      finding: "Befund",
      level: "Stufe",
      seen: "Trays damit",
      wentAhead: "Damit begonnen",
      share: "Anteil",
    },
  },
};
