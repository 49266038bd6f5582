import { aiAt } from "./ai-facts.ts";
import { belongs, DIGITS, firstOutside } from "./character-sets.ts";
import { isWebAddress, readDigitalLink } from "./digital-link.ts";
import { GS, readElementString, type Gs1Data } from "./gs1.ts";
import { readGtin } from "./gtin.ts";
import { isHibc, openHibc, readHibc, type HibcReading, type HibcSymbol } from "./hibc.ts";
import { isHumanReadable, readHumanReadable } from "./hri.ts";
import { isMessage, readPpnMessage } from "./ifa.ts";
import { suspectSeparators } from "./lost-separator.ts";
import type { LabelError, LabelFields, LabelWarning } from "./result.ts";
import { restoreSeparators } from "./separators.ts";
import { carrierOf, IDENTIFIER_LENGTH, type Carrier } from "./symbology.ts";

/**
 * The longest text that is looked at, in UTF-16 units. The largest symbol in use, a QR Code of
 * digits, holds 7089 (ISO/IEC 18004).
 */
const MAX_LABEL_LENGTH = 8192;

/** What one scan must be read with. */
export type ScanContext = {
  currentYear: number;
  gsTokens: readonly string[];
  permitZeroSuppressedGtin: boolean;
};

/** Elements of an element string, of the printed form or of a link. */
export type Gs1Scan = { scheme: "gs1" | "gs1-digital-link"; data: Gs1Data };

/** A bare GTIN and where it stands. */
export type GtinScan = { scheme: "gtin"; gtin: string; at: number; length: number };

/** An HIBC symbol whose check character is right, and what it says on its own. */
export type HibcScan = {
  scheme: "hibc";
  symbol: HibcSymbol;
  reading: HibcReading | LabelError;
  textLength: number;
};

/** The fields of a pharmacy product number message. */
export type PpnScan = { scheme: "ifa-ppn"; fields: LabelFields; textLength: number };

/** What one scan says, before relations between elements and between scans are judged. */
export type ScanReading = { symbology?: string; warnings: LabelWarning[] } & (
  | Gs1Scan
  | GtinScan
  | HibcScan
  | PpnScan
);

/**
 * Answers what one scan says, or the first error in it. The text is classified by its symbology
 * identifier where the scanner sends one, otherwise by how it begins; nothing is tried twice, so a
 * GTIN with a wrong check digit is never read as something else. Carriage return, line feed and tab
 * at the end are the scanner's; nothing else is taken off. Errors: `empty_input`, `value_too_long`
 * beyond MAX_LABEL_LENGTH, `unrecognized_format`, `unsupported_scheme`, `symbology_mismatch` when
 * identifier and data contradict each other, those of `carrierOf` and of the reader in charge. An
 * HIBC reading may itself be an error, since a supplement cannot be told from a primary symbol
 * alone. Source: project rules on ISO/IEC 15424 and the standards of the readers.
 */
export function readScan(raw: string, context: ScanContext): ScanReading | LabelError {
  const text = withoutTerminators(raw);
  if (text.length === 0) return { kind: "empty_input", at: 0, length: 0 };
  if (text.length > MAX_LABEL_LENGTH) {
    const length = text.length - MAX_LABEL_LENGTH;
    return { kind: "value_too_long", at: MAX_LABEL_LENGTH, length };
  }
  if (text.charCodeAt(0) !== 93) return readUnmarked(text, context);
  const carrier = carrierOf(text);
  if ("kind" in carrier) return carrier;
  if (text.length === IDENTIFIER_LENGTH) {
    return { kind: "empty_input", at: IDENTIFIER_LENGTH, length: 0 };
  }
  const reading = readCarried(text, carrier, context);
  if (!("kind" in reading)) reading.symbology = carrier.identifier;
  return reading;
}

type Outcome = ScanReading | LabelError;

function withoutTerminators(raw: string): string {
  let end = raw.length;
  while (end > 0) {
    const unit = raw.charCodeAt(end - 1);
    if (unit !== 13 && unit !== 10 && unit !== 9) break;
    end -= 1;
  }
  return end === raw.length ? raw : raw.slice(0, end);
}

function readCarried(text: string, carrier: Carrier, context: ScanContext): Outcome {
  const start = IDENTIFIER_LENGTH;
  const identifier = { at: 0, length: start };
  switch (carrier.carries) {
    case "element-string":
      if (belongs(text, start, DIGITS)) return readElements(text, start, context);
      if (isHumanReadable(text, start)) return readPrinted(text, start, context);
      if (isWebAddress(text, start) || isHibc(text, start) || isMessage(text, start)) {
        return { kind: "symbology_mismatch", ...identifier };
      }
      return readElements(text, start, context);
    case "gtin":
      return readTradeItem(text, start, carrier.digits);
    case "code39-full-ascii":
      return { kind: "unsupported_symbology", ...identifier, detail: "code39_full_ascii" };
    case "code39-stripped":
      if (!isHibc(text, start)) return readPlain(text, start, context);
      return {
        kind: "invalid_check_character",
        at: text.length,
        length: 0,
        detail: "code39_check_stripped",
      };
    case "plain":
      return readPlain(text, start, context);
  }
}

function readPlain(text: string, start: number, context: ScanContext): Outcome {
  const reading = readForeign(text, start, context);
  if (reading !== undefined) return reading;
  if (isHumanReadable(text, start) || beginsWithAi(text, start, context)) {
    return { kind: "symbology_mismatch", at: 0, length: start };
  }
  return { kind: "unrecognized_format", at: start, length: text.length - start };
}

function readUnmarked(text: string, context: ScanContext): Outcome {
  if (belongs(text, 0, DIGITS)) {
    if (isBareGtin(text)) return readTradeItem(text, 0, text.length);
    if (aiAt(text, 0) !== undefined) return readElements(text, 0, context);
  } else {
    if (isHumanReadable(text, 0)) return readPrinted(text, 0, context);
    const reading = readForeign(text, 0, context);
    if (reading !== undefined) return reading;
    if (beginsWithAi(text, 0, context)) return readElements(text, 0, context);
  }
  const error: LabelError = { kind: "unrecognized_format", at: 0, length: text.length };
  return isTypedOnFrenchKeys(text) ? { ...error, detail: "keyboard_layout" } : error;
}

/** The formats that are no GS1 element string, or undefined when the text is none of them. */
function readForeign(text: string, start: number, context: ScanContext): Outcome | undefined {
  if (isWebAddress(text, start)) {
    const data = readDigitalLink(text, start, context);
    return "kind" in data ? data : { scheme: "gs1-digital-link", data, warnings: data.warnings };
  }
  if (isHibc(text, start)) {
    const symbol = openHibc(text, start);
    if ("kind" in symbol) return symbol;
    const reading = readHibc(symbol, context.currentYear);
    const warnings = "kind" in reading ? [] : reading.warnings;
    return { scheme: "hibc", symbol, reading, textLength: text.length, warnings };
  }
  if (isMessage(text, start)) return readMessage(text, start, context);
  // ISBT 128 data structures: = with a letter or punctuation, & with a letter.
  if (/^(=[A-Za-z!-/:-@]|&[A-Za-z])/.test(text.slice(start, start + 2))) {
    return { kind: "unsupported_scheme", at: start, length: 2 };
  }
  return undefined;
}

function isBareGtin(text: string): boolean {
  const { length } = text;
  if (length !== 8 && length !== 12 && length !== 13 && length !== 14) return false;
  return firstOutside(text, 0, length, DIGITS) === -1;
}

function readTradeItem(text: string, start: number, digits: number): Outcome {
  const gtin = readGtin(text, start, digits);
  if (typeof gtin !== "string") return gtin;
  return { scheme: "gtin", gtin, at: start, length: text.length - start, warnings: [] };
}

/** Whether an AI stands first, or first after separators, real or substituted. */
function beginsWithAi(text: string, start: number, context: ScanContext): boolean {
  const whole = restoreSeparators(text, start, context.gsTokens)?.text ?? text;
  let at = start;
  while (whole.startsWith(GS, at)) at += 1;
  return aiAt(whole, at) !== undefined;
}

function readPrinted(text: string, start: number, context: ScanContext): Outcome {
  const data = readHumanReadable(text, start, context.currentYear);
  return "kind" in data ? data : { scheme: "gs1", data, warnings: data.warnings };
}

/**
 * Reads an element string. Substitutes for separators are looked for when the scanner is known to
 * send some, and otherwise only after the text as it stands has failed: the ones understood by
 * default cannot occur in a valid one.
 */
function readElements(text: string, start: number, context: ScanContext): Outcome {
  const { currentYear, gsTokens } = context;
  if (gsTokens.length > 0) {
    return readRestored(text, start, context) ?? readDirect(text, start, currentYear);
  }
  const direct = readDirect(text, start, currentYear);
  return "kind" in direct ? (readRestored(text, start, context) ?? direct) : direct;
}

function readDirect(text: string, start: number, currentYear: number): Outcome {
  const data = readElementString(text, start, currentYear);
  if ("kind" in data) return data;
  suspectSeparators(text, data, currentYear);
  return { scheme: "gs1", data, warnings: data.warnings };
}

/** Reads an element string whose separators arrived as other texts; undefined when none did. */
function readRestored(text: string, start: number, context: ScanContext): Outcome | undefined {
  const restored = restoreSeparators(text, start, context.gsTokens);
  if (restored === undefined) return undefined;
  const { rawPosition } = restored;
  const inRaw = <Place extends { at: number; length: number }>(place: Place): Place => {
    const at = rawPosition(place.at);
    return { ...place, at, length: rawPosition(place.at + place.length) - at };
  };
  const data = readElementString(restored.text, start, context.currentYear);
  if ("kind" in data) return inRaw(data);
  data.starts = data.starts.map(rawPosition);
  data.ends = data.ends.map(rawPosition);
  return { scheme: "gs1", data, warnings: [...restored.warnings, ...data.warnings.map(inRaw)] };
}

function readMessage(text: string, start: number, context: ScanContext): Outcome {
  const restored = restoreSeparators(text, start, context.gsTokens);
  const fields = readPpnMessage(restored?.text ?? text, start, context.currentYear);
  if (!("kind" in fields)) {
    const warnings = restored?.warnings ?? [];
    return { scheme: "ifa-ppn", fields, textLength: text.length, warnings };
  }
  if (restored === undefined) return fields;
  const at = restored.rawPosition(fields.at);
  return { ...fields, at, length: restored.rawPosition(fields.at + fields.length) - at };
}

/** A scanner set for a US keyboard on a French host types these characters for its digits. */
function isTypedOnFrenchKeys(text: string): boolean {
  return /^[&\u00e9"'(\-\u00e8_\u00e7\u00e0]{2}/.test(text.slice(0, 2));
}
