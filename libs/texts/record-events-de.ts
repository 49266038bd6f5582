import type { recordEventsEn } from "./record-events-en.ts";

/** What was written to a record, in German. */
export const recordEventsDe: typeof recordEventsEn = {
  titles: {
    "step-started": "[{step}: ]begonnen",
    "step-done": "[{step}: ]fertig",
    "step-left-out": "[{step}: ]ausgelassen",
    dispensed: "[{step}: ]Tropfen dosiert",
    cure: "[{step}: ]{seconds} s lichtgehärtet",
    thickness: "[{step}: ]{millimetres} mm dick",
    material: "[{step}: ]Behälter getauscht",
    noted: "[{step}: ]Behälter nachträglich vermerkt",
    "not-scanned": "[{step}: ]ohne Scan verwendet",
    deviation: "[{step}: ]{deviation}",
    note: "Notiz",
  },
  parts: {
    application: "[{step}: ]Auftragen begonnen",
    "air-dry": "[{step}: ]Trocknen begonnen",
    cure: "[{step}: ]Licht an",
  },
  deviations: {
    blood: "Blut",
    saliva: "Speichel",
    "primed-again": "noch einmal geprimt",
    dropped: "etwas ist heruntergefallen",
    other: "Abweichung",
  },
  planned: "{seconds} s geplant",
  ran: "{seconds} s gemessen",
  emptied: "der vorige war leer",
  otherLight: "eine Lampe, die nicht in der Liste steht",
  distance: "{millimetres} mm entfernt",
  exposure: "{given} J/cm²[ von verlangten {needed} J/cm²]",
  exposureUnknown: "Dosis nicht bekannt",
  known: {
    measured: "{irradiance} mW/cm²",
    between: "{irradiance} mW/cm², zwischen zwei Messungen",
    estimate: "{irradiance} mW/cm², geschätzt",
  },
};
