import type { LabelErrorDetail, LabelErrorKind, LabelWarningKind } from "./result.ts";

/** What the scanner, not the label, may have done wrong. */
export const scannerFaults = [
  "caps-lock",
  "keyboard-layout",
  "full-ascii",
  "check-character",
  "separator-lost",
  "separator-doubled",
  "separator-suspected",
  "separator-substituted",
] as const;

/** One of them. */
export type ScannerFault = (typeof scannerFaults)[number];

const BY_DETAIL: ReadonlyMap<string, ScannerFault> = new Map<LabelErrorDetail, ScannerFault>([
  ["caps_lock", "caps-lock"],
  ["keyboard_layout", "keyboard-layout"],
  ["code39_check_stripped", "check-character"],
  ["code39_full_ascii", "full-ascii"],
]);

const BY_KIND: ReadonlyMap<string, ScannerFault> = new Map<
  LabelErrorKind | LabelWarningKind,
  ScannerFault
>([
  ["symbology_case_mismatch", "caps-lock"],
  ["value_too_long", "separator-lost"],
  ["doubled_separator", "separator-doubled"],
  ["separator_suspected", "separator-suspected"],
  ["separator_substituted", "separator-substituted"],
]);

/**
 * Answers what an error or a warning of `readLabel` says about the scanner, or undefined where it
 * says nothing. Takes kinds and details as texts, so that those that came over the network fit,
 * too. A value that is too long is put down to a lost separator: a longer one cannot be encoded.
 */
export function scannerFaultOf(found: {
  kind: string;
  detail?: string | undefined;
}): ScannerFault | undefined {
  return BY_DETAIL.get(found.detail ?? "") ?? BY_KIND.get(found.kind);
}
