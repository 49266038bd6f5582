import { findAi } from "./ai-facts.ts";
import { combineHibc } from "./combine-hibc.ts";
import { mergeFields } from "./field-entry.ts";
import { finishGs1, type Finished } from "./finish.ts";
import { addElement, noElements } from "./gs1.ts";
import type { LabelError, LabelFields, LabelWarning } from "./result.ts";
import type { Gs1Scan, GtinScan, HibcScan, PpnScan, ScanReading } from "./scan.ts";

/** What several scans must be put together with. */
export type CombineOptions = { currentYear: number; enforce: boolean };

/**
 * Answers what several scans of one label say together; `outcomes` holds one for each scan, in
 * order. GS1 elements and bare GTINs are judged as one set, an HIBC primary symbol takes its
 * secondary symbols in any order, equal repeats are fine. Errors carry the scan in `part`: the
 * first error of a scan, `unsupported_scheme` with detail `mixed_schemes` when the scans follow
 * different standards, `conflicting_duplicate_ai`, `exclusive_ai_pair`, `missing_companion_ai`,
 * `conflicting_duplicate`, `link_mismatch`. Source: Syntax Dictionary (pairings are judged over all
 * symbols of an item); ANSI/HIBC 2.6-2016 section 2.2 (link character).
 */
export function combineScans(
  outcomes: readonly (ScanReading | LabelError)[],
  options: CombineOptions,
): Finished | LabelError {
  const scans: ScanReading[] = [];
  for (const [part, outcome] of outcomes.entries()) {
    if ("kind" in outcome) return { ...outcome, part };
    scans.push(outcome);
  }
  const hibc = scans.filter((scan): scan is ScanReading & HibcScan => scan.scheme === "hibc");
  const ppn = scans.filter((scan): scan is ScanReading & PpnScan => scan.scheme === "ifa-ppn");
  const gs1 = scans.filter(
    (scan): scan is ScanReading & (Gs1Scan | GtinScan) => "data" in scan || "gtin" in scan,
  );
  if (hibc.length === scans.length) return combineHibc(hibc, options.currentYear);
  if (ppn.length === scans.length) return combinePpn(ppn);
  if (gs1.length === scans.length) return combineGs1(gs1, options);
  const family = [hibc, ppn, gs1].find((members) => members.some((scan) => scan === scans[0]));
  const part = scans.findIndex((scan) => !family?.some((member) => member === scan));
  return { kind: "unsupported_scheme", at: 0, length: 0, detail: "mixed_schemes", part };
}

function combineGs1(
  scans: readonly (ScanReading & (Gs1Scan | GtinScan))[],
  options: CombineOptions,
): Finished | LabelError {
  const whole = noElements();
  const warnings: LabelWarning[] = [];
  for (const [part, scan] of scans.entries()) {
    warnings.push(...scan.warnings.map((warning) => ({ ...warning, part })));
    if (scan.scheme === "gtin") {
      const fact = findAi("01");
      const { gtin: value, at: start, length } = scan;
      if (fact !== undefined) addElement(whole, fact, { value, start, end: start + length });
    } else {
      const { elements, facts, starts, ends } = scan.data;
      whole.elements.push(...elements);
      whole.facts.push(...facts);
      whole.starts.push(...starts);
      whole.ends.push(...ends);
    }
    while (whole.parts.length < whole.elements.length) whole.parts.push(part);
  }
  const schemes = new Set(scans.map(({ scheme }) => scheme));
  const [scheme = "gs1"] = schemes.size === 1 ? schemes : [];
  return finishGs1(whole, { ...options, scheme, warnings });
}

function combinePpn(scans: readonly (ScanReading & PpnScan)[]): Finished | LabelError {
  const fields: LabelFields = {};
  const warnings: LabelWarning[] = [];
  for (const [part, scan] of scans.entries()) {
    const fault = mergeFields(fields, scan.fields, scan.textLength);
    if (fault !== undefined) return { ...fault, part };
    warnings.push(...scan.warnings.map((warning) => ({ ...warning, part })));
  }
  return { scheme: "ifa-ppn", elements: [], fields, warnings };
}
