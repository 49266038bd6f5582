import { aiAt, unknownAiAt, type AiFact } from "./ai-facts.ts";
import type { Span } from "./content-rules.ts";
import { checkValue } from "./gs1-value.ts";
import type { LabelElement, LabelError, LabelWarning } from "./result.ts";

/** The group separator, as which FNC1 arrives between elements. */
export const GS = "\u001d";
const GS_UNIT = 29;

/**
 * The elements of one or several scans, and the oddities met while reading them. The lists run in
 * step: element, facts of its AI, and the span of AI and value in the raw text of its scan. `parts`
 * holds the index of that scan when there are several, otherwise nothing.
 */
export type Gs1Data = {
  elements: LabelElement[];
  facts: AiFact[];
  starts: number[];
  ends: number[];
  parts: number[];
  warnings: LabelWarning[];
};

/** Answers the lists of `Gs1Data` with nothing in them. */
export function noElements(): Gs1Data {
  return { elements: [], facts: [], starts: [], ends: [], parts: [], warnings: [] };
}

/** Appends one element, which stands in the raw text from `start` up to `end`. */
export function addElement(
  data: Gs1Data,
  fact: AiFact,
  { value, start, end }: { value: string; start: number; end: number },
): void {
  data.elements.push({ ai: fact.ai, value });
  data.facts.push(fact);
  data.starts.push(start);
  data.ends.push(end);
}

/** Answers where an element stands, as errors and warnings say it. */
export function placeOf(
  data: Gs1Data,
  index: number,
): { at: number; length: number; ai: string; part?: number } {
  const at = data.starts[index] ?? 0;
  const length = (data.ends[index] ?? at) - at;
  const ai = data.facts[index]?.ai ?? "";
  const part = data.parts[index];
  return part === undefined ? { at, length, ai } : { at, length, ai, part };
}

/**
 * Answers the elements of an element string that runs from `start` to the end of `text`. Errors,
 * each with its span: `empty_input` when there is nothing, `unknown_ai`, `doubled_separator` and
 * those of `checkValue`. Source: GS1 General Specifications 7.8 (7.8.6.3: one separator after any
 * element is tolerated); a single leading separator is tolerated with the warning
 * `leading_separator` (project rule).
 */
export function readElementString(
  text: string,
  start: number,
  currentYear: number,
): Gs1Data | LabelError {
  const data = noElements();
  const span: Span = { text, start, end: start, currentYear };
  let at = start;
  if (text.charCodeAt(at) === GS_UNIT) {
    data.warnings.push({ kind: "leading_separator", at, length: 1 });
    at += 1;
  }
  if (at >= text.length) return { kind: "empty_input", at: start, length: text.length - start };
  while (at < text.length) {
    const fact = aiAt(text, at);
    if (fact === undefined) return noSuchAi(text, at);
    span.start = at + fact.ai.length;
    span.end = valueEnd(text, span.start, fact);
    const valueAt = span.start;
    const end = span.end;
    const fault = checkValue(fact, span);
    if (fault !== undefined) return cutBySeparator(text, { fact, valueAt, end, fault });
    addElement(data, fact, { value: text.slice(valueAt, end), start: at, end });
    at = end < text.length && text.charCodeAt(end) === GS_UNIT ? end + 1 : end;
  }
  return data;
}

function valueEnd(text: string, start: number, fact: AiFact): number {
  if (fact.predefinedLength > 0) return Math.min(text.length, start + fact.predefinedLength);
  const separator = text.indexOf(GS, start);
  return separator === -1 ? text.length : separator;
}

function noSuchAi(text: string, at: number): LabelError {
  if (text.charCodeAt(at) === GS_UNIT) return { kind: "doubled_separator", at, length: 1 };
  const ai = unknownAiAt(text, at);
  const length = Math.max(1, ai.length);
  return ai === "" ? { kind: "unknown_ai", at, length } : { kind: "unknown_ai", at, length, ai };
}

/** A separator inside a value of predefined length ends it: the value is short, not misspelt. */
function cutBySeparator(
  text: string,
  found: { fact: AiFact; valueAt: number; end: number; fault: LabelError },
): LabelError {
  const { fact, valueAt, end, fault } = found;
  const separator = text.indexOf(GS, valueAt);
  if (separator === -1 || separator >= end) return fault;
  const length = separator - valueAt;
  const kind = length === 0 ? "empty_value" : "value_too_short";
  return { kind, at: valueAt, length, ai: fact.ai };
}
