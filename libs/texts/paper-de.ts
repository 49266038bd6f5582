import type { PaperTexts } from "./paper-en.ts";
import { paperRecordDe } from "./paper-record.ts";

/** What stands on paper in German; the same shape as `paperEn`. */
export const paperDe: PaperTexts = {
  lot: "LOT",
  useBy: "Verwendbar bis",
  opened: "Geöffnet",
  useUntil: "Aufbrauchen bis",
  tooth: "Zahn {tooth}",
  labels: "Etiketten",
  sheetTest: {
    title: "Probeseite",
    lines: [
      "Drucken Sie mit 100 %, ohne Anpassung an die Seite, auf einfaches Papier.",
      "Messen Sie ein Lineal nach: 100 muss 100 mm von 0 entfernt sein.",
      "Halten Sie Seite und Etikettenbogen gegen das Licht: Jeder Rahmen muss auf einem Etikett liegen.",
    ],
  },
  calibration: {
    title: "Probeetikett",
    line: "Das Lineal muss stimmen, der Rahmen ganz sein.",
  },
  record: paperRecordDe,
  downtime: {
    title: "Ausfallblatt, {day|date}",
    lead:
      "Schreiben Sie hier, solange das System fehlt. Tragen Sie es danach ein, mit der Zeit, zu " +
      "der es geschah; dann werden die Behälter gescannt, heben Sie sie also bis dahin auf.",
    printed: "gedruckt {when}",
    chart: "Akte",
    teeth: "Zähne (FDI), Verfahren",
    technique: "Technik",
    planned: "Geplant",
    begun: "Priming begonnen um",
    set: "Gerichtet:",
    step: "Schritt",
    code: "Code des Behälters",
    lot: "Charge",
    useBy: "Verwendbar bis",
    from: "Von",
    to: "Bis",
    light: "Lampe, Betriebsart",
    seconds: "Sekunden Licht",
    distance: "Abstand, mm",
    thickness: "Dicke, mm",
    deviations: "Abweichungen, was nicht gescannt wurde",
    dentist: "Zahnärztin oder Zahnarzt",
    signature: "Datum, Unterschrift",
  },
  scannerSheet: {
    title: "Scanner einrichten",
    lines: [
      "Melden Sie sich an, öffnen Sie die Seite für Scanner und scannen Sie damit das erste Symbol.",
      "Scannen Sie danach das HIBC-Symbol von der Art, die Ihre Packungen tragen.",
      "Drucken Sie mit 100 %. Decken Sie beim Scannen die anderen Symbole mit der Hand ab.",
    ],
  },
};
