import { encodeElementString } from "./encode.ts";
import type { LabelElement } from "./result.ts";

/**
 * How a set-up symbol is drawn: as a GS1 DataMatrix, or with the HIBC data as it stands in a plain
 * Data Matrix, Code 128 or Code 39.
 */
export type ScannerSetUpCarrier =
  | "gs1-datamatrix"
  | "hibc-datamatrix"
  | "hibc-code128"
  | "hibc-code39";

/** Which of the set-up symbols. */
export type ScannerSetUpKey = "gs1" | "hibc" | "hibc-linear" | "hibc-code39";

/**
 * One symbol with which a scanner is set up. `text` is what a faultless scanner delivers, without
 * symbology identifier and end key: for HIBC the symbol's data from the plus sign to the check
 * character, which is a space. `bracketed` is the GS1 data with its AIs in brackets, as drawing
 * programs take it; no value contains a bracket.
 */
export type ScannerSetUpSymbol = {
  key: ScannerSetUpKey;
  name: string;
  carrier: ScannerSetUpCarrier;
  text: string;
  bracketed?: string;
};

/**
 * The elements of the GS1 symbol: two of variable length, so that a separator stands between them,
 * with letters in both cases, all ten digits, and every mark of CSET 82 but the brackets and those
 * of a written separator. Between them they tell any two keyboard layouts apart that differ in a
 * character a label can hold. The GTIN is one that GS1 uses in examples.
 */
const elements: readonly LabelElement[] = [
  { ai: "01", value: "09506000134352" },
  { ai: "10", value: `aQz-W/y+M8"q_Y!7A` },
  { ai: "21", value: `Zm'i;N?w=K:b,G.E%*&i` },
];

/**
 * The HIBC data: `/`, `$` and `+` as ANSI/HIBC 2.6 sets them, and a check character that is a
 * space. Its labeler code is the one of the standard's own examples.
 */
const hibc = "+A999ZQ8WYM7/$+4B6MK ";

/**
 * The symbols of the set-up sheet, GS1 first. The HIBC data comes in three carriers, since a
 * scanner has settings for each; a practice scans the kind that its labels bear. Source: project
 * rule, from observed scanners.
 */
export const scannerSetUpSymbols: readonly ScannerSetUpSymbol[] = [
  {
    key: "gs1",
    name: "GS1 DataMatrix",
    carrier: "gs1-datamatrix",
    text: encodeElementString(elements),
    bracketed: elements.map(({ ai, value }) => `(${ai})${value}`).join(""),
  },
  { key: "hibc", name: "HIBC Data Matrix", carrier: "hibc-datamatrix", text: hibc },
  { key: "hibc-linear", name: "HIBC Code 128", carrier: "hibc-code128", text: hibc },
  { key: "hibc-code39", name: "HIBC Code 39", carrier: "hibc-code39", text: hibc },
];
