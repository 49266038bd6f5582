/** Why a label could not be read, for a person with a scanner in the hand. */
import type { ScannerFault } from "#labels";
import type { LabelProblemKind } from "./label-problems-en.ts";

/** In German, by the error kind of the label reader. */
export const labelProblemsDe: Readonly<Record<LabelProblemKind, string>> = {
  empty_input: "Der Scanner hat nichts gesendet. Scannen Sie noch einmal.",
  unrecognized_format:
    "Das ist kein Strichcode eines Produktetiketts. Scannen Sie den neben LOT oder UDI.",
  unsupported_symbology:
    "Diese Art von Strichcode trägt keine Produktdaten. Scannen Sie einen anderen.",
  unsupported_scheme: "Dieses Etikett ist für Blut, Gewebe oder Zellen. Tubule liest es nicht.",
  symbology_case_mismatch:
    "Die Feststelltaste scheint aktiv zu sein. Schalten Sie sie aus und scannen Sie noch einmal.",
  symbology_mismatch:
    "Art und Inhalt des Strichcodes passen nicht zusammen. Scannen Sie noch einmal oder tippen " +
    "Sie ihn ein.",
  unknown_ai:
    "Das Etikett enthält ein Feld, das keine Norm kennt. Scannen Sie noch einmal, sonst tippen " +
    "Sie es ein.",
  empty_value: "Ein Feld des Etiketts ist leer. Scannen Sie noch einmal, sonst tippen Sie es ein.",
  value_too_short:
    "Das Etikett bricht ab. Halten Sie den Scanner über den ganzen Code und scannen Sie noch " +
    "einmal.",
  value_too_long:
    "Ein Feld des Etiketts ist zu lang. Vielleicht verschluckt der Scanner Trennzeichen; prüfen " +
    "Sie ihn auf seiner Einrichtungsseite.",
  invalid_character:
    "Das Etikett enthält ein Zeichen, das dort nicht stehen kann. Prüfen Sie das Tastaturlayout " +
    "des Scanners.",
  invalid_check_digit: "Die Produktnummer wurde falsch gelesen. Scannen Sie noch einmal.",
  invalid_date:
    "Das Etikett nennt ein Datum, das es nicht gibt. Lesen Sie das gedruckte Datum und geben Sie " +
    "es ein.",
  invalid_time:
    "Das Etikett nennt eine Uhrzeit, die es nicht gibt. Lesen Sie die gedruckte und geben Sie " +
    "sie ein.",
  doubled_separator:
    "Der Scanner hat zwei Trennzeichen hintereinander gesendet. Scannen Sie noch einmal und " +
    "prüfen Sie den Scanner.",
  missing_companion_ai:
    "Dieser Code nennt das Produkt nicht. Scannen Sie auch den anderen Code auf dem Etikett.",
  exclusive_ai_pair:
    "Das Etikett enthält zwei Felder, die einander ausschließen. Tippen Sie es ein.",
  conflicting_duplicate_ai:
    "Das Etikett nennt für ein Feld zwei Werte. Lesen Sie den gedruckten Text und geben Sie ihn " +
    "ein.",
  not_a_digital_link:
    "Das ist eine gewöhnliche Webadresse, kein Produktetikett. Scannen Sie einen anderen Code.",
  dl_key_qualifier_order:
    "Die Webadresse auf dem Etikett ist falsch geordnet. Scannen Sie einen anderen Code oder " +
    "tippen Sie es ein.",
  dl_attribute_not_allowed:
    "In der Webadresse auf dem Etikett steht ein Feld am falschen Platz. Scannen Sie einen " +
    "anderen Code.",
  dl_duplicate_ai:
    "Die Webadresse auf dem Etikett nennt ein Feld doppelt. Scannen Sie einen anderen Code.",
  invalid_check_character: "Der Code wurde falsch gelesen. Scannen Sie noch einmal.",
  link_mismatch: "Diese beiden Codes gehören nicht zusammen. Scannen Sie beide von einem Etikett.",
  invalid_structure:
    "Der Code ist nicht so aufgebaut, wie seine Norm verlangt. Scannen Sie noch einmal oder " +
    "einen anderen.",
  unknown_data_identifier:
    "Das Etikett enthält ein Feld, das hier nicht gelesen wird. Scannen Sie einen anderen Code " +
    "oder tippen Sie es ein.",
  conflicting_duplicate:
    "Die Codes widersprechen einander in einem Feld. Scannen Sie nur die eines einzigen Etiketts.",
};

/** What the scanner did, where it was the scanner, in German; by the fault. */
export const scannerFaultsDe: Readonly<Record<ScannerFault, string>> = {
  "caps-lock":
    "Die Feststelltaste ist aktiv; die Buchstaben einer Charge kommen falsch an. Schalten Sie sie " +
    "aus und scannen Sie noch einmal.",
  "keyboard-layout":
    "Scanner und Gerät sind auf verschiedene Tastaturen eingestellt. Öffnen Sie Praxis, Scanner " +
    "und scannen Sie das Einrichtungsblatt.",
  "full-ascii":
    "Ihr Scanner wandelt Code 39 in Full ASCII um, was dieses Etikett verfälscht. Schalten Sie das " +
    "am Scanner aus und scannen Sie noch einmal.",
  "check-character":
    "Ihr Scanner nimmt das Prüfzeichen weg; ein Lesefehler bliebe unbemerkt. Stellen Sie ihn so " +
    "ein, dass er das Prüfzeichen von Code 39 sendet, und scannen Sie noch einmal.",
  "separator-lost":
    "Ihr Scanner verschluckt das Trennzeichen zwischen den Feldern. Öffnen Sie Praxis, Scanner und " +
    "scannen Sie das Einrichtungsblatt.",
  "separator-doubled":
    "Ihr Scanner sendet das Trennzeichen zwischen den Feldern doppelt. Öffnen Sie Praxis, Scanner " +
    "und scannen Sie das Einrichtungsblatt.",
  "separator-suspected":
    "Zwei Felder des Etiketts sind vielleicht ineinander geraten. Vergleichen Sie das Gelesene mit " +
    "dem gedruckten Etikett.",
  "separator-substituted":
    "Ihr Scanner sendet einen Text anstelle des Trennzeichens. Er wurde verstanden; öffnen Sie " +
    "Praxis, Scanner und scannen Sie das Einrichtungsblatt, um sicherzugehen.",
};
