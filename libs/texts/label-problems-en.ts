/** Why a label could not be read, for a person with a scanner in the hand. */
import type { ScannerFault } from "#labels";

/** In English, by the error kind of the label reader. */
export const labelProblemsEn = {
  empty_input: "The scanner sent nothing. Scan again.",
  unrecognized_format:
    "This is no barcode of a product label. Scan the one beside the words LOT or UDI.",
  unsupported_symbology: "Product labels are not read from this kind of barcode. Scan another one.",
  unsupported_scheme: "This label is for blood, tissue or cells. Tubule does not read it.",
  symbology_case_mismatch: "Caps Lock seems to be on. Turn it off and scan again.",
  symbology_mismatch:
    "The barcode is of one kind and its content of another. Scan again, or enter it by hand.",
  unknown_ai: "The label holds a field that no standard knows. Scan again; then enter it by hand.",
  empty_value: "A field of the label is empty. Scan again; then enter it by hand.",
  value_too_short: "The label broke off. Hold the scanner over the whole barcode and scan again.",
  value_too_long:
    "A field of the label is too long. Perhaps the scanner drops separators; test it on its " +
    "set-up page.",
  invalid_character:
    "The label holds a character that cannot be there. Check the scanner's keyboard layout.",
  invalid_check_digit: "The product number was misread. Scan again.",
  invalid_date: "The label gives a date that does not exist. Read the printed date and enter it.",
  invalid_time: "The label gives a time that does not exist. Read the printed one and enter it.",
  doubled_separator: "The scanner sent two separators in a row. Scan again; then test the scanner.",
  missing_companion_ai:
    "This barcode does not name the product. Scan the other barcode on the label as well.",
  exclusive_ai_pair: "The label holds two fields that exclude each other. Enter it by hand.",
  conflicting_duplicate_ai:
    "The label gives two different values for one field. Read the printed text and enter it.",
  not_a_digital_link: "This is an ordinary web address, no product label. Scan another barcode.",
  dl_key_qualifier_order:
    "The web address on the label is out of order. Scan another barcode, or enter it by hand.",
  dl_attribute_not_allowed:
    "The web address on the label has a field in the wrong place. Scan another barcode.",
  dl_duplicate_ai: "The web address on the label names a field twice. Scan another barcode.",
  invalid_check_character: "The barcode was misread. Scan again.",
  link_mismatch: "These two barcodes do not belong together. Scan both from one label.",
  invalid_structure: "The barcode is not built as its standard asks. Scan again, or another one.",
  unknown_data_identifier:
    "The label holds a field that is not read here. Scan another barcode, or enter it by hand.",
  conflicting_duplicate:
    "The barcodes disagree about one field. Scan only those of one and the same label.",
};

/** Every way in which reading a label can fail. */
export type LabelProblemKind = keyof typeof labelProblemsEn;

/** What the scanner did, where it was the scanner, in English; by the fault. */
export const scannerFaultsEn: Readonly<Record<ScannerFault, string>> = {
  "caps-lock":
    "Caps Lock is on, so that the letters of a lot come out wrong. Turn it off and scan again.",
  "keyboard-layout":
    "Scanner and device are set to different keyboards. Open Practice, Scanner and scan the " +
    "set-up sheet.",
  "full-ascii":
    "Your scanner converts Code 39 to full ASCII, which spoils this label. Switch that off on the " +
    "scanner and scan again.",
  "check-character":
    "Your scanner takes the check character off, so that a misreading would go unseen. Set it to " +
    "send the check character of Code 39, and scan again.",
  "separator-lost":
    "Your scanner drops the separator between fields. Open Practice, Scanner and scan the set-up " +
    "sheet.",
  "separator-doubled":
    "Your scanner sends the separator between fields twice. Open Practice, Scanner and scan the " +
    "set-up sheet.",
  "separator-suspected":
    "Two fields of the label may have run together. Compare what was read with the printed label.",
  "separator-substituted":
    "Your scanner sends a text in place of the separator. It was understood; open Practice, Scanner " +
    "and scan the set-up sheet to be sure of it.",
};
