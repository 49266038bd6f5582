import { combineScans } from "./combine.ts";
import { finishGs1, type Finished } from "./finish.ts";
import { yearOf } from "./label-date.ts";
import type { LabelError, LabelResult, ReadOptions } from "./result.ts";
import { readScan, type ScanContext, type ScanReading } from "./scan.ts";

/** The most scans that can belong to one label. */
const MAX_SCANS = 64;

const NO_TOKENS: readonly string[] = [];

/**
 * Reads one label of a medical device: `input` is the complete text that a scanner or keyboard
 * delivered, symbology identifier included where the scanner sends one, or the texts of several
 * scans of one label. It understands GS1 element strings, their printed form in brackets, bare
 * GTINs, GS1 Digital Links, HIBC supplier labels and IFA pharmacy product numbers. The answer is
 * either what the label says or the first reason to refuse it, with its span; nothing is repaired
 * silently. It depends on nothing but its arguments, never throws, and takes time in proportion to
 * the length of the text. Every kind of `labelErrorKinds` can occur. Sources: those named at each
 * reader.
 */
export function readLabel(input: string | readonly string[], options: ReadOptions): LabelResult {
  const context: ScanContext = {
    currentYear: yearOf(options.today),
    gsTokens: options.gsTokens ?? NO_TOKENS,
    permitZeroSuppressedGtin: options.permitZeroSuppressedGtin === true,
  };
  const enforce = options.associations === "enforce";
  if (typeof input === "string") {
    const scan = readScan(input, context);
    if ("kind" in scan) return refusal(input, scan);
    return answer(input, scan.symbology, finishScan(scan, context.currentYear, enforce));
  }
  if (input.length === 0) {
    return { ok: false, error: { kind: "empty_input", at: 0, length: 0 }, raw: input };
  }
  if (input.length > MAX_SCANS) {
    const error: LabelError = { kind: "value_too_long", at: 0, length: 0, part: MAX_SCANS };
    return { ok: false, error, raw: input };
  }
  const scans = input.map((text) => readScan(text, context));
  const identifiers = scans.map((scan) => ("kind" in scan ? undefined : scan.symbology));
  const symbology = identifiers.find((identifier) => identifier !== undefined);
  const { currentYear } = context;
  return answer(input, symbology, combineScans(scans, { currentYear, enforce }));
}

function answer(
  raw: string | readonly string[],
  symbology: string | undefined,
  outcome: Finished | LabelError,
): LabelResult {
  if ("kind" in outcome) return refusal(raw, outcome);
  const { scheme, elements, fields, warnings } = outcome;
  if (symbology === undefined) return { ok: true, scheme, elements, fields, warnings, raw };
  return { ok: true, scheme, symbology, elements, fields, warnings, raw };
}

function refusal(raw: string | readonly string[], error: LabelError): LabelResult {
  const text = typeof raw === "string" ? raw : (raw[error.part ?? 0] ?? "");
  return { ok: false, error: wholeCharacters(text, error), raw };
}

/** Widens a span that cuts a character of two UTF-16 units, so that it can be marked. */
function wholeCharacters(text: string, error: LabelError): LabelError {
  const { at, length } = error;
  const end = at + length;
  const before = cutsCharacter(text, at) ? 1 : 0;
  const behind = length > 0 && cutsCharacter(text, end) ? 1 : 0;
  if (before + behind === 0) return error;
  return { ...error, at: at - before, length: before + length + behind };
}

function cutsCharacter(text: string, at: number): boolean {
  return at > 0 && (text.codePointAt(at - 1) ?? 0) > 0xffff;
}

function finishScan(
  scan: ScanReading,
  currentYear: number,
  enforce: boolean,
): Finished | LabelError {
  const { scheme, warnings } = scan;
  switch (scan.scheme) {
    case "gs1":
    case "gs1-digital-link":
      return finishGs1(scan.data, { currentYear, enforce, scheme, warnings });
    case "gtin":
      return { scheme, elements: [], fields: { gtin: scan.gtin }, warnings };
    case "ifa-ppn":
      return { scheme, elements: [], fields: scan.fields, warnings };
    case "hibc":
      if ("kind" in scan.reading) return scan.reading;
      return { scheme, elements: [], fields: scan.reading.fields, warnings };
  }
}
