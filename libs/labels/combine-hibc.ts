import { mergeFields } from "./field-entry.ts";
import type { Finished } from "./finish.ts";
import type { HibcReading } from "./hibc.ts";
import { hibcCheckCharacter } from "./hibc-check.ts";
import { readHibcSupplement } from "./hibc-secondary.ts";
import type { LabelError, LabelFields, LabelWarning } from "./result.ts";
import type { HibcScan } from "./scan.ts";

/**
 * Answers what several HIBC symbols of one label say together, in any order: one device, named by
 * its primary symbol, and the secondary symbols that carry its check character as their link. A
 * separate supplement looks like a primary symbol or like nothing at all, and only its link next to
 * a primary tells what it is; so each primary is tried as the one the others belong to. Errors,
 * with the scan in `part`: `link_mismatch`, `conflicting_duplicate`, or the scan's own. Source:
 * ANSI/HIBC 2.6-2016 sections 2.2 and 2.3; the order and the equal repeats are project rules.
 */
export function combineHibc(
  scans: readonly HibcScan[],
  currentYear: number,
): Finished | LabelError {
  const primaries = scans.flatMap(({ reading }) =>
    !("kind" in reading) && reading.fields.lic !== undefined ? [reading] : [],
  );
  let first: Finished | LabelError | undefined;
  for (const primary of primaries) {
    const whole = assemble(primary, scans, currentYear);
    if (!("kind" in whole)) return whole;
    first ??= whole;
  }
  return first ?? joinSecondaries(scans);
}

function assemble(
  primary: HibcReading,
  scans: readonly HibcScan[],
  currentYear: number,
): Finished | LabelError {
  const fields: LabelFields = { ...primary.fields };
  const warnings: LabelWarning[] = [];
  const link = hibcCheckCharacter(`+${fields.lic}${fields.pcn}${fields.unit_of_measure}`);
  for (let part = 0; part < scans.length; part += 1) {
    const scan = scans[part];
    if (scan === undefined) continue;
    const reading = isSameDevice(scan.reading, fields)
      ? scan.reading
      : readLinked(scan, link, currentYear);
    if ("kind" in reading) return { ...reading, part };
    if (reading.fields.link_character !== undefined) {
      fields.structure = "pair";
      fields.link_character = reading.fields.link_character;
    }
    const fault = mergeFields(fields, reading.fields, scan.textLength);
    if (fault !== undefined) return { ...fault, part };
    warnings.push(...reading.warnings.map((warning) => ({ ...warning, part })));
  }
  return { scheme: "hibc", elements: [], fields, warnings };
}

function isSameDevice(reading: HibcReading | LabelError, fields: LabelFields): boolean {
  if ("kind" in reading) return false;
  const { lic, pcn, unit_of_measure: unit } = reading.fields;
  return lic === fields.lic && pcn === fields.pcn && unit === fields.unit_of_measure;
}

/** A secondary symbol or a separate supplement that belongs to the primary with this link. */
function readLinked(
  scan: HibcScan,
  link: string | undefined,
  currentYear: number,
): HibcReading | LabelError {
  const { symbol, reading, textLength } = scan;
  const { data, offset } = symbol;
  const linkAt = data.length - 2;
  const isLinked = data.charAt(linkAt) === link;
  const isSecondary = !("kind" in reading) && reading.fields.structure === "secondary";
  if (isSecondary) {
    return isLinked ? reading : { kind: "link_mismatch", at: offset + linkAt, length: 1 };
  }
  if (isLinked) {
    const fields: LabelFields = { link_character: data.charAt(linkAt) };
    const supplement = { text: data.slice(0, linkAt), currentYear, fields, warnings: [] };
    if (readHibcSupplement(supplement, 1) === undefined) return supplement;
  }
  if ("kind" in reading) return reading;
  return { kind: "conflicting_duplicate", at: 0, length: textLength };
}

/** Secondary symbols without their primary: they must at least name the same one. */
function joinSecondaries(scans: readonly HibcScan[]): Finished | LabelError {
  let fields: LabelFields | undefined;
  const warnings: LabelWarning[] = [];
  for (let part = 0; part < scans.length; part += 1) {
    const scan = scans[part];
    if (scan === undefined) continue;
    const { reading, symbol, textLength } = scan;
    if ("kind" in reading) return { ...reading, part };
    fields ??= { ...reading.fields };
    if (fields.link_character !== reading.fields.link_character) {
      const at = symbol.offset + symbol.data.length - 2;
      return { kind: "link_mismatch", at, length: 1, part };
    }
    const fault = mergeFields(fields, reading.fields, textLength);
    if (fault !== undefined) return { ...fault, part };
    warnings.push(...reading.warnings.map((warning) => ({ ...warning, part })));
  }
  return { scheme: "hibc", elements: [], fields: fields ?? {}, warnings };
}
