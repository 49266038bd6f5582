import { identifierOf } from "#labels";
import { readScanned } from "../scanner/scan.ts";

/**
 * What a symbol in view says, as far as it decides what becomes of it: the practice's own code, a
 * label with its lot, one that names the product alone, one that names the lot alone, or what
 * cannot be read as a label.
 */
export interface Sight {
  text: string;
  part: "own" | "whole" | "product" | "lot" | "other";
  lot?: string;
  /** Who issued the identifier of the product. */
  scheme?: string;
}

/** Says what a symbol is for; `today` is a civil date. */
export function readSight(text: string, today: string): Sight {
  const reading = readScanned({ barcodes: [text] }, today);
  if (reading.kind === "unreadable") return { text, part: "other" };
  if (reading.kind !== "label") return { text, part: "own" };
  const { fields } = reading.label;
  const scheme = identifierOf(fields)?.scheme;
  const { lot } = fields;
  if (scheme !== undefined && lot !== undefined) return { text, part: "whole", lot, scheme };
  if (scheme !== undefined) return { text, part: "product", scheme };
  return lot === undefined ? { text, part: "other" } : { text, part: "lot", lot };
}

/** Whether two symbols make one label, in this order. */
export const makeOneLabel = (first: string, second: string, today: string): boolean =>
  readScanned({ barcodes: [first, second] }, today).kind === "label";
