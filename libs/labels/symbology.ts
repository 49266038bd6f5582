import type { LabelError } from "./result.ts";

/**
 * What the data of a symbol must be: a GS1 element string; a GTIN of so many `digits`; anything but
 * an element string; or data that a Code 39 reader has damaged, because it took off the check
 * character or converted pairs of characters to full ASCII.
 */
export type Carrier = {
  identifier: string;
  carries: "element-string" | "gtin" | "plain" | "code39-stripped" | "code39-full-ascii";
  digits: number;
};

type CarrierLine = readonly [identifiers: string, carries: Carrier["carries"], digits?: number];

/**
 * Symbology identifiers and what they carry. Source: ISO/IEC 15424 (Code 39 modifiers from memory);
 * GS1 General Specifications Figure 5.1.2-2.
 */
const CARRIER_LINES: readonly CarrierLine[] = [
  ["]C1 ]d2 ]Q3 ]e0 ]J1", "element-string"],
  ["]E0", "gtin", 13],
  ["]E4", "gtin", 8],
  ["]I1", "gtin", 14],
  ["]C0 ]d1 ]Q1 ]J0 ]z0 ]L0 ]L1 ]L2 ]A0 ]A1 ]A2", "plain"],
  ["]A3", "code39-stripped"],
  ["]A4 ]A5 ]A6 ]A7", "code39-full-ascii"],
];

const CARRIERS: ReadonlyMap<string, Carrier> = new Map(
  CARRIER_LINES.flatMap(([identifiers, carries, digits = 0]) =>
    identifiers.split(" ").map((identifier) => [identifier, { identifier, carries, digits }]),
  ),
);

/** Characters of a symbology identifier. */
export const IDENTIFIER_LENGTH = 3;

/**
 * Answers what the symbology identifier at the start of `text`, which begins with `]`, announces.
 * Errors: `symbology_case_mismatch` when its letter has the wrong case, as Caps Lock does to a
 * keyboard scanner (every letter of the data is then inverted, too), otherwise
 * `unsupported_symbology`. Source: ISO/IEC 15424; refusing the wrong case is a project rule.
 */
export function carrierOf(text: string): Carrier | LabelError {
  const identifier = text.slice(0, IDENTIFIER_LENGTH);
  const carrier = CARRIERS.get(identifier);
  if (carrier !== undefined) return carrier;
  const span = { at: 0, length: identifier.length };
  if (CARRIERS.has(withOtherCase(identifier))) {
    return { kind: "symbology_case_mismatch", ...span, detail: "caps_lock" };
  }
  return { kind: "unsupported_symbology", ...span };
}

function withOtherCase(identifier: string): string {
  const upper = identifier.toUpperCase();
  return identifier === upper ? identifier.toLowerCase() : upper;
}
