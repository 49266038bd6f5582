import type { withdrawalEn } from "./screens-withdrawal-en.ts";

const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** The texts of traces and withdrawals, in German. Own wording. */
export const withdrawalDe: typeof withdrawalEn = {
  title: "Rückrufe",
  lead: "Ist es hier? Wer hat es? Gehen die Bücher auf?",
  scanTarget: "Verfolgung: folgt der Charge des Etiketts",
  form: {
    title: "Verfolgen",
    lot: "Charge",
    lotHint: "Genau wie gedruckt",
    identifier: "Produktkennung",
    identifierHint: "GTIN, HIBC oder PPN",
    container: "Behälter",
    containerHint: "Der kurze Code auf seinem Etikett",
    button: "Verfolgen",
    again: "Etwas anderes verfolgen",
    sayOne: "Nennen Sie eine Charge, eine Produktkennung oder einen Behälter.",
  },
  answer: {
    title: (what) => `Verfolgt: ${what}`,
    lot: (lot) => `Charge ${lot}`,
    identifier: (identifier) => `Kennung ${identifier}`,
    container: (code) => `Behälter ${code}`,
    at: (when) => `Stand der Bücher ${when}`,
    none: "Nichts davon hier",
    noneText: "Nichts davon wurde hier je eingebucht. Auch das ist eine Antwort.",
    unknown:
      "Kein Katalogeintrag und kein Behälter hat diesen Code, also wurde nichts davon eingebucht.",
    withdrawn: "von einem offenen Rückruf betroffen",
    saveTeeth: "Betroffene Zähne als CSV sichern",
    enter: "Rückruf eintragen",
    officeEnters: "Einen Rückruf trägt das Büro ein.",
  },
  lookAlikes: {
    title: "Ähnlich aussehende Chargen, nicht enthalten",
    text:
      "Ihr Text ließe sich mit diesem verwechseln. Jede ist eine eigene Charge: einzeln " +
      "ansehen.",
    look: "Einzeln ansehen",
  },
  flow: {
    label: "Von der Lieferung bis zu den Zähnen",
    received: "eingebucht",
    here: "noch hier",
    planned: "auf geplanten Trays",
    teeth: "Zähne",
    patients: "Patienten",
    nowhere: "in keinem Regal",
    noTray: "auf keinem Tray",
    noTooth: "in keinem Zahn",
  },
  certainty: { certain: "sicher", inferred: "gefolgert", possible: "möglich" },
  certaintyWhy: {
    certain: "der Behälter wurde gescannt",
    inferred: "der Scan fehlt; nur einer dieses Produkts war im Raum offen",
    possible: "der Scan fehlt; mehrere dieses Produkts waren im Raum offen",
  },
  teeth: {
    title: "Zähne und Patienten",
    none: "Soweit dokumentiert, trägt kein Zahn davon.",
    sums: (counts) =>
      `${counts.certain} sicher · ${counts.inferred} gefolgert · ${counts.possible} möglich`,
    columns: {
      certainty: "Gewissheit",
      chart: "Akte",
      tooth: "Zahn",
      visit: "Termin",
      step: "Schritt",
      container: "Behälter",
      used: "Verwendet",
      record: "Dokumentation",
      product: "Produkt",
      lot: "Charge",
    },
    visits: { sealing: "Versiegelung", bonding: "Einsetzen" },
  },
  balance: {
    title: "Gehen die Bücher auf?",
    received: "Eingebucht",
    onHand: "Im Regal",
    quarantined: "In Quarantäne",
    usedUp: "Aufgebraucht",
    discarded: "Entsorgt",
    returned: "Zurückgegeben",
    unaccounted: "Ungeklärt",
    balanced: "Sie gehen auf: nichts bleibt übrig.",
    missing: (count) => `${plural(count, "Behälter ist", "Behälter sind")} ungeklärt.`,
    tooMany: (count) =>
      `${plural(count, "Behälter mehr steht", "Behälter mehr stehen")} in den Büchern als ` +
      "eingebucht.",
    lost: (count) => `Davon ${count} als verloren gebucht.`,
    counted: (count) => `Davon ${count} durch Zählen.`,
  },
  lotTitle: (product, lot) => `${product}, Charge ${lot}`,
  useBy: (date) => `verwendbar bis ${date}`,
  noUseBy: "kein Verwendbarkeitsdatum",
  cases: {
    title: "Fälle",
    empty: "Noch ist kein Rückruf eingetragen.",
    columns: {
      reference: "Zeichen",
      state: "Zustand",
      received: "Eingetragen",
      closed: "Abgeschlossen",
      scope: "Betrifft",
    },
  },
  everyLot: "jede Charge",
  enter: {
    title: "Rückruf eintragen",
    text: "Ab dem Eintrag kommt nichts Betroffenes mehr durch eine Prüfung oder einen Eingang.",
    reference: "Zeichen der Mitteilung",
    referenceHint: "Nummer oder Titel, wie darauf angegeben",
    note: "Notiz",
    noteHint: "Wer sie schickt, was sie verlangt",
    scope: "Was sie betrifft",
    scopeOf: (product, lot) => `${product}, Charge ${lot}`,
    scopeAll: (product) => `${product}, jede Charge`,
    more: "Noch etwas anderes",
    product: "Produkt",
    lot: "Charge",
    lotHint: "Leer: jede Charge des Produkts",
    addScope: "Dazunehmen",
    nothing: "Sagen Sie, was betroffen ist: eine Charge ankreuzen oder ein Produkt dazunehmen.",
    button: "Eintragen",
    done: (reference) => `Rückruf ${reference} ist offen.`,
  },
  case: {
    noticeBy: (by, when) => `Eingetragen von ${by}, ${when}`,
    since: "seit der Mitteilung",
    took: "von der Mitteilung bis zum Abschluss",
    covers: "Betrifft",
    stillOut: "noch im Regal",
    setApart: "in Quarantäne",
    teeth: "Zähne",
    patients: "Patienten",
    unaccounted: "ungeklärt",
    segregate: (count) => `${count} Behälter in Quarantäne stellen`,
    segregateTitle: "Alles davon in Quarantäne stellen?",
    segregateText: (count) =>
      `${count} Behälter, die dieser Fall betrifft. Tragen Sie sie auch hin: Gebucht wird sofort.`,
    segregated: (count) => `${count} Behälter in Quarantäne gestellt.`,
    nothingOut: "Nichts davon steht mehr im Regal.",
    close: "Fall abschließen",
    closeTitle: (reference) => `${reference} abschließen?`,
    closeText:
      "Was gefunden und getan wurde, in Worten. Die Zahlen von jetzt stehen da; ändern Sie, " +
      "was Sie mögen.",
    stillOutWarning: (count) =>
      `${count} Behälter davon ${count === 1 ? "steht" : "stehen"} noch im Regal.`,
    summary: "Zusammenfassung",
    closeButton: "Abschließen",
    closed: (when) => `Abgeschlossen ${when}`,
    closedDone: "Der Fall ist abgeschlossen.",
    officeCloses: "Abschließen kann das Büro.",
    lots: "Betroffene Chargen hier",
    noLots: "Nichts davon wurde hier je eingebucht. Ab jetzt wird es am Eingang abgewiesen.",
    figures: (f) =>
      `Eingebucht ${f.received}; im Regal ${f.onHand}, in Quarantäne ${f.quarantined}, ` +
      `aufgebraucht ${f.usedUp}, entsorgt ${f.discarded}, zurückgegeben ${f.returned}, ` +
      `ungeklärt ${f.unaccounted}.`,
    figuresTeeth: (f) =>
      `Zähne: ${f.certain} sicher, ${f.inferred} gefolgert, ${f.possible} möglich; ` +
      `Patienten: ${f.patients}.`,
  },
  clock: {
    days: (count) => plural(count, "Tag", "Tage"),
    parts: (hours, minutes, seconds) => `${hours}:${minutes}:${seconds}`,
  },
};
