import { ALPHANUMERIC, belongs, DIGITS, firstOutside, HIBC_CHARACTERS } from "./character-sets.ts";
import { hibcCheckCharacter } from "./hibc-check.ts";
import { readHibcSecondary, type HibcText } from "./hibc-secondary.ts";
import type { LabelError, LabelFields, LabelWarning } from "./result.ts";

/** What one HIBC symbol says. */
export type HibcReading = { fields: LabelFields; warnings: LabelWarning[] };

/**
 * The data of one HIBC symbol: the text from the plus sign to the check character, and where it
 * begins in the raw text.
 */
export type HibcSymbol = { data: string; offset: number };

const LIC_LENGTH = 4;
const MAX_PCN_LENGTH = 18;

/** Answers whether `text` from `start` on begins like an HIBC symbol, printed asterisk or not. */
export function isHibc(text: string, start: number): boolean {
  return text.startsWith("+", start) || text.startsWith("*+", start);
}

/**
 * Answers the data of the HIBC symbol that fills `text` from `start` to its end, once characters
 * and check character are found right. The printed form, framed by asterisks and with an underscore
 * for a check character that is a space, is accepted. Errors: `invalid_structure` for a frame that
 * is not closed or data too short for a check character, `unsupported_scheme` for HIBC provider
 * labels and Basic UDI-DI, `invalid_character`, `invalid_check_character`. Nothing is trimmed: the
 * check character may be a space. Source: ANSI/HIBC 2.6-2016 sections 2.1 and appendix B; hibcc.org
 * for the printed form.
 */
export function openHibc(text: string, start: number): HibcSymbol | LabelError {
  let offset = start;
  let data = text.slice(start);
  if (data.startsWith("*")) {
    if (!data.endsWith("*")) return { kind: "invalid_structure", at: text.length, length: 0 };
    offset += 1;
    data = data.slice(1, -1);
    if (data.endsWith("_")) data = `${data.slice(0, -1)} `;
  }
  const second = data.charAt(1);
  if (second === "/" || second === "+") {
    return { kind: "unsupported_scheme", at: offset, length: 2 };
  }
  const bad = firstOutside(data, 0, data.length, HIBC_CHARACTERS);
  if (bad !== -1) {
    const error: LabelError = { kind: "invalid_character", at: offset + bad, length: 1 };
    return /^\+(d[12]|e0)/.test(data) ? { ...error, detail: "keyboard_layout" } : error;
  }
  if (data.length < 3) return { kind: "invalid_structure", at: offset, length: data.length };
  if (hibcCheckCharacter(data.slice(0, -1)) !== data.slice(-1)) {
    return { kind: "invalid_check_character", at: offset + data.length - 1, length: 1 };
  }
  return { data, offset };
}

/**
 * Answers what an opened HIBC symbol says: primary, secondary with its link character, or both
 * concatenated. Errors: `invalid_structure`, `invalid_character`, `value_too_long` in labeler code,
 * product number and unit of measure, and those of `readHibcSecondary`. Check and link characters
 * are taken off by their position before anything is split, since they may be any character.
 * Source: ANSI/HIBC 2.6-2016 sections 2.1 to 2.3.
 */
export function readHibc(symbol: HibcSymbol, currentYear: number): HibcReading | LabelError {
  const { data, offset } = symbol;
  const fields: LabelFields = { check_character: data.slice(-1) };
  const reading: HibcText = { text: data.slice(0, -1), currentYear, fields, warnings: [] };
  const isSecondary = data.startsWith("$", 1) || belongs(data, 1, DIGITS);
  const fault = isSecondary ? readLinked(reading) : readPrimary(reading);
  if (fault !== undefined) return { ...fault, at: fault.at + offset };
  const warnings = reading.warnings.map((warning) => ({ ...warning, at: warning.at + offset }));
  return { fields, warnings };
}

function readLinked(reading: HibcText): LabelError | undefined {
  const { text, fields } = reading;
  fields.structure = "secondary";
  fields.link_character = text.slice(-1);
  return readHibcSecondary({ ...reading, text: text.slice(0, -1) }, 1);
}

function readPrimary(reading: HibcText): LabelError | undefined {
  const { text, fields } = reading;
  const slash = text.indexOf("/");
  const end = slash === -1 ? text.length : slash;
  const pcnAt = 1 + LIC_LENGTH;
  const unitAt = end - 1;
  const pcnLength = unitAt - pcnAt;
  if (pcnLength < 1) return { kind: "invalid_structure", at: 1, length: end - 1 };
  const bad = firstOutside(text, 1, unitAt, ALPHANUMERIC);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  if (pcnLength > MAX_PCN_LENGTH) {
    const excess = pcnLength - MAX_PCN_LENGTH;
    return { kind: "value_too_long", at: pcnAt + MAX_PCN_LENGTH, length: excess };
  }
  if (!belongs(text, unitAt, DIGITS)) return { kind: "invalid_structure", at: unitAt, length: 1 };
  fields.structure = slash === -1 ? "primary" : "concatenated";
  fields.lic = text.slice(1, pcnAt);
  fields.pcn = text.slice(pcnAt, unitAt);
  fields.unit_of_measure = Number(text.charAt(unitAt));
  return slash === -1 ? undefined : readHibcSecondary(reading, slash + 1);
}
