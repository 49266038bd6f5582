/** The texts of a device's scanner and its set-up, in German. Own wording. */
import type { scannerEn } from "./screens-scanner-en.ts";

export const scannerDe: typeof scannerEn = {
  lead: "Scanner tippen wie eine Tastatur. Hier steht, wie der an diesem Gerät verstanden wird.",
  now: {
    title: "Der Scanner dieses Geräts",
    setUp: (when) => `Eingerichtet am ${when}.`,
    never: "Noch nicht eingerichtet: Er wird so verstanden, wie Scanner ab Werk senden.",
    byHand: "Von Hand eingestellt: Er wurde nie mit den Symbolen erprobt.",
    onTablet: (name) => `Gemerkt auf diesem Gerät und beim Tablet ${name}.`,
    onDevice: "Nur in diesem Browser gemerkt.",
    notSaved: "Beim Tablet konnte es nicht gespeichert werden:",
    keyboard: "Gelesen werden",
    keyboards: { "as-typed": "die getippten Zeichen", "by-position": "die Plätze der Tasten" },
    separator: "Trennzeichen zwischen Feldern",
    separatorPlain: "wie es sein soll (GS)",
    prefix: "Davor angefügt",
    suffix: "Dahinter angefügt",
    endKey: "Ende eines Scans",
    endKeys: { Enter: "Enter", Tab: "Tab", either: "Enter oder Tab", none: "eine Pause" },
    gap: "Längste Pause zwischen zwei Tasten",
    keys: "Wenigste Tasten eines Scans",
    milliseconds: (count) => `${count} ms`,
    start: "Scanner einrichten",
    again: "Neu einrichten",
    forget: "Wie ab Werk",
    forgotten: "Der Scanner wird verstanden, wie er ab Werk sendet.",
  },
  run: {
    title: "Scanner einrichten",
    steps: ["Erstes Symbol", "Zweites Symbol", "Ergebnis"],
    first: "Scannen Sie dieses Symbol.",
    second: "Scannen Sie nun dieses.",
    wait: "Warten auf den Scan. Lassen Sie die Tastatur solange in Ruhe.",
    other: "Das war nicht das gezeigte Symbol. Scannen Sie das obenstehende, und sonst nichts.",
    kind: "Die Art der Strichcodes auf den meisten Ihrer HIBC-Etiketten",
    kinds: {
      hibc: "Data Matrix (Quadrat)",
      "hibc-linear": "Code 128 (Striche)",
      "hibc-code39": "Code 39 (breite Striche)",
    },
    none: "Liest Ihr Scanner nicht vom Bildschirm, drucken Sie das Blatt und scannen vom Papier.",
    sheet: "Blatt drucken",
    nothing: "Es kommt nichts an? Der Scanner muss als Tastatur (HID) verbunden sein.",
    symbolFailed: "Das Symbol konnte nicht geholt werden. Scannen Sie es vom gedruckten Blatt.",
    good: "Der Scanner ist eingerichtet",
    goodText: "Jedes Etikett wird nun so gelesen, wie es gedruckt ist.",
    bad: "Der Scanner muss erst umgestellt werden",
    badText:
      "So, wie er ist, könnte eine Charge falsch gelesen werden; deshalb wurde nichts gespeichert. " +
      "Stellen Sie dies am Scanner nach seiner Anleitung um und richten Sie ihn neu ein:",
    setRight: "Hier berichtigt",
    change: "Am Scanner umstellen",
    fine: "Schadet nicht",
    again: "Von vorn scannen",
    done: "Fertig",
  },
  findings: {
    "not-the-symbol": {
      title: "Ein anderer Strichcode wurde gescannt",
      text: () => "Scannen Sie die beiden gezeigten Symbole, und sonst nichts.",
    },
    "characters-changed": {
      title: "Zeichen kamen falsch an",
      text: () =>
        "Der Scanner ist auf eine Tastatur eingestellt, die weder die dieses Geräts noch die der " +
        "USA ist. Stellen Sie sein Tastaturland auf USA.",
    },
    "letters-inverted": {
      title: "Groß- und Kleinbuchstaben sind vertauscht",
      text: () => "Schalten Sie die Umwandlung von Buchstaben am Scanner aus.",
    },
    "letters-capital": {
      title: "Jeder Buchstabe kommt groß an",
      text: () =>
        "Zwei Chargen, die sich nur darin unterscheiden, wären nicht zu trennen. Schalten Sie die " +
        "Umwandlung in Großbuchstaben aus.",
    },
    "letters-small": {
      title: "Jeder Buchstabe kommt klein an",
      text: () =>
        "Zwei Chargen, die sich nur darin unterscheiden, wären nicht zu trennen. Schalten Sie die " +
        "Umwandlung in Kleinbuchstaben aus.",
    },
    "caps-lock": {
      title: "Die Feststelltaste ist aktiv",
      text: () =>
        "Von nun an werden die Plätze der Tasten gelesen, die sie nicht ändert. Schalten Sie sie " +
        "besser trotzdem aus.",
    },
    "keyboard-layout": {
      title: "Scanner und Gerät haben verschiedene Tastaturen",
      text: () =>
        "Der Scanner tippt wie auf einer Tastatur der USA. Von nun an werden die Plätze seiner " +
        "Tasten gelesen.",
    },
    "brackets-added": {
      title: "Um die Feldnummern stehen Klammern",
      text: () =>
        "Klammern können Teil einer Charge sein. Schalten Sie die Formatierung von GS1-Daten aus.",
    },
    "separator-lost": {
      title: "Das Trennzeichen zwischen den Feldern fehlt",
      text: () =>
        "Eine Charge läuft in das nächste Feld, und niemand weiß, wo sie endet. Stellen Sie den " +
        "Scanner so ein, dass er das Gruppentrennzeichen sendet (GS, auch FNC1 oder ASCII 29).",
    },
    "separator-ambiguous": {
      title: "Das Trennzeichen kommt als etwas, das Inhalt sein kann",
      text: (sent) =>
        `Es kam als ${sent}; das kann Teil einer Charge oder das Ende eines Scans sein. Stellen ` +
        "Sie den Scanner so ein, dass er das Gruppentrennzeichen selbst (GS, ASCII 29) oder die " +
        "Taste F8 sendet.",
    },
    "separator-substituted": {
      title: "Das Trennzeichen kommt als anderer Text",
      text: (sent) => `Von nun an gilt ${sent} als Trennzeichen.`,
    },
    "leading-separator": {
      title: "Ein Trennzeichen steht davor",
      text: () => "Es wird übergangen.",
    },
    "full-ascii": {
      title: "Code 39 wird in Full ASCII umgewandelt",
      text: () => "Das verfälscht HIBC-Etiketten. Schalten Sie Full ASCII für Code 39 aus.",
    },
    "check-character-stripped": {
      title: "Das Prüfzeichen wird weggenommen",
      text: () =>
        "Ohne es bleibt ein Lesefehler unbemerkt. Stellen Sie den Scanner so ein, dass er das " +
        "Prüfzeichen von Code 39 sendet.",
    },
    "last-character-lost": {
      title: "Das letzte Zeichen fehlt",
      text: () =>
        "Der Scanner nimmt das Prüfzeichen oder Leerzeichen am Ende weg. Stellen Sie ihn so ein, " +
        "dass er beides sendet.",
    },
    "space-changed": {
      title: "Das Leerzeichen kommt als anderes Zeichen",
      text: (sent) =>
        `Es kam als ${sent}. Stellen Sie den Scanner so ein, dass er Leerzeichen unverändert sendet.`,
    },
    "identifier-wrong": {
      title: "Die Art des Strichcodes wird falsch genannt",
      text: (sent) =>
        `Sie wurde ${sent} genannt. Stellen Sie den Scanner so ein, dass er GS1-Symbole als solche ` +
        "liest und AIM-Kennungen sendet oder keine.",
    },
    "identifier-sent": {
      title: "Die Art jedes Strichcodes wird mitgesendet",
      text: (sent) => `Sie kam als ${sent}: Etiketten sind mit Sicherheit zu unterscheiden.`,
    },
    "identifier-not-sent": {
      title: "Die Art des Strichcodes wird nicht mitgesendet",
      text: () =>
        "Es geht ohne. Wenn der Scanner es kann, lassen Sie ihn AIM-Kennungen senden: Etiketten " +
        "sind dann sicherer zu unterscheiden.",
    },
    "additions-vary": {
      title: "Jeder Art von Strichcode wird etwas anderes angefügt",
      text: (sent) =>
        `Eines davon war ${sent}. Schalten Sie eigene Kennungen des Scanners aus; AIM-Kennungen ` +
        "dürfen bleiben.",
    },
    "prefix-added": {
      title: "Davor werden Zeichen angefügt",
      text: (sent) => `Von nun an wird ${sent} weggenommen.`,
    },
    "suffix-added": {
      title: "Dahinter werden Zeichen angefügt",
      text: (sent) => `Von nun an wird ${sent} weggenommen.`,
    },
    "end-key-varies": {
      title: "Nur einer der beiden Scans hatte eine Endtaste",
      text: () =>
        "Stellen Sie den Scanner so ein, dass er nach jeder Art von Strichcode Enter sendet.",
    },
    "no-end-key": {
      title: "Es wird keine Endtaste gesendet",
      text: () =>
        "Von nun an beendet eine Pause den Scan. Schneller geht es, wenn der Scanner Enter sendet.",
    },
    "too-slow": {
      title: "Die Tasten kommen zu langsam",
      text: (sent) =>
        `Zwischen zwei Tasten vergingen bis zu ${sent} ms; ab 60 ms ist ein Scan nicht von Tippen ` +
        "zu unterscheiden. Schalten Sie die Pause zwischen Zeichen aus oder gehen Sie näher zum " +
        "Empfänger.",
    },
  },
  tryOut: {
    title: "Ausprobieren",
    lead: "Scannen Sie irgendetwas: Es wird hier gezeigt und geht nirgendwohin.",
    begin: "Beginnen",
    end: "Beenden",
    nothing: "Es ist noch nichts angekommen.",
    typed: "Getippt",
    byPosition: "Nach den Plätzen der Tasten",
    raw: "Genommen als",
    ended: "Beendet durch",
    gaps: (shortest, longest) =>
      shortest === longest ? `${shortest} ms Abstand` : `${shortest} bis ${longest} ms Abstand`,
    gapsLabel: "Tasten",
    capsLock: "Die Feststelltaste ist aktiv.",
    reads: "Gelesen als",
  },
  settings: {
    title: "Von Hand einstellen",
    hint: "Die Einrichtung findet dies selbst. Ändern Sie es nur, wenn Scans fehlen oder Tippen für einen gehalten wird.",
    saved: "Für dieses Gerät gespeichert.",
  },
  doubt: {
    title: "Ist das die Charge auf dem Etikett?",
    text: "Zwei Felder sind vielleicht ineinander geraten. Vergleichen Sie mit dem gedruckten Etikett.",
    yes: "Es steht so gedruckt",
    no: "Weglegen",
  },
};
