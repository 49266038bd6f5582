import { readOwnCode, type OwnCode } from "#domain";
import {
  applyScannerProfile,
  readLabel,
  type LabelError,
  type LabelRead,
  type LabelRefused,
  type LabelWarning,
  type ScannerProfile,
} from "#labels";
import type { Burst } from "./wedge.ts";

/** What this device itself understands of a scan, before the server is asked. */
export type ScanReading =
  | OwnCode
  | { kind: "label"; label: LabelRead }
  | { kind: "unreadable"; refused: LabelRefused };

/** What is sent and kept of a scan. */
export interface ScanTexts {
  /** What the scanner sent, byte for byte; two where a label has two symbols. */
  barcodes: string[];
  /** What this scanner sends for the group separator, where it sends something of its own. */
  gsTokens?: string[] | undefined;
}

/** How a scan came: typed or pasted is by hand. */
export type ScanSource = "scanner" | "camera" | "photo" | "hand";

export interface Scan extends ScanTexts {
  reading: ScanReading;
  source: ScanSource;
}

/** Reads one scan: a code on the practice's own labels, or a label of a standard. */
export function readScanned({ barcodes, gsTokens = [] }: ScanTexts, today: string): ScanReading {
  const [first = ""] = barcodes;
  if (barcodes.length === 1) {
    const own = readOwnCode(first);
    if (own !== undefined) return own;
  }
  const label = readLabel(barcodes.length === 1 ? first : barcodes, { today, gsTokens });
  return label.ok ? { kind: "label", label } : { kind: "unreadable", refused: label };
}

/**
 * Reads what this device's scanner sent. With Caps Lock on, the letters of a lot are not the ones
 * of the label, and a label of digits and capitals does not show it: such a scan is refused.
 */
export function readBurst(burst: Burst, profile: ScannerProfile, today: string): Scan {
  const barcodes = [applyScannerProfile(profile, burst)];
  const { gsTokens } = profile;
  const texts = gsTokens.length === 0 ? { barcodes } : { barcodes, gsTokens };
  const reading = readScanned(texts, today);
  const isSpoilt = burst.capsLock && profile.keyboard === "as-typed";
  if (!isSpoilt || reading.kind !== "label") return { ...texts, reading, source: "scanner" };
  return {
    ...texts,
    reading: { kind: "unreadable", refused: invertedBy(barcodes) },
    source: "scanner",
  };
}

/** Whether Caps Lock has spoilt a scan. */
export const isInverted = ({ reading }: Scan): boolean =>
  reading.kind === "unreadable" && reading.refused.error.detail === "caps_lock";

const invertedBy = (raw: string[]): LabelRefused => ({
  ok: false,
  error: { kind: "symbology_case_mismatch", at: 0, length: 0, detail: "caps_lock" },
  raw,
});

/** The texts of two scans of one label, in their order. */
export function joinTexts(first: ScanTexts, second: ScanTexts): ScanTexts {
  const barcodes = [...first.barcodes, ...second.barcodes];
  const gsTokens = second.gsTokens ?? first.gsTokens;
  return gsTokens === undefined ? { barcodes } : { barcodes, gsTokens };
}

/** What is sent of a scan: its texts alone. */
export const textsOf = ({ barcodes, gsTokens }: ScanTexts): ScanTexts =>
  gsTokens === undefined ? { barcodes } : { barcodes, gsTokens };

/** What is odd about a scan: its warnings, or why it was refused. */
export function oddOf(reading: ScanReading): readonly (LabelWarning | LabelError)[] {
  if (reading.kind === "label") return reading.label.warnings;
  return reading.kind === "unreadable" ? [reading.refused.error] : [];
}

/** Whether a separator may have been lost on the way. A camera loses none. */
export function mayHaveRunTogether({ reading, source }: Scan): boolean {
  if (source === "camera" || source === "photo") return false;
  return oddOf(reading).some(({ kind }) => kind === "separator_suspected");
}

/** Whether a label has told only half: its product or its lot is on another symbol. */
export function wantsOtherSymbol({ fields, warnings }: LabelRead): boolean {
  if (fields.structure === "primary" || fields.structure === "secondary") return true;
  return warnings.some((warning) => warning.kind === "missing_companion_ai");
}
