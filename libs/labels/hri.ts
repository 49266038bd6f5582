import { findAi, type AiFact } from "./ai-facts.ts";
import { DIGITS, firstOutside } from "./character-sets.ts";
import type { Span } from "./content-rules.ts";
import { addElement, noElements, type Gs1Data } from "./gs1.ts";
import { checkValue } from "./gs1-value.ts";
import type { LabelError } from "./result.ts";

type Bracket = { at: number; end: number; ai: string };

/**
 * Answers whether `text` from `start` on is a printed label: spaces, then two to four digits in
 * brackets.
 */
export function isHumanReadable(text: string, start: number): boolean {
  return bracketAt(text, skipSpaces(text, start)) !== undefined;
}

/**
 * Answers the elements of the printed form, AIs in brackets and no separators, from `start` to the
 * end of `text`. A bracketed known AI opens an element; spaces next to brackets and at the end are
 * dropped. Brackets are legal data as well and no standard says how to tell them apart, so a
 * bracketed number that is no AI stays data with the warning `brackets_in_value`, unless the value
 * consists of digits: then it is `unknown_ai`. Further errors are those of `checkValue`. Source:
 * GS1 General Specifications 4.14; the rule for brackets in data is the project's.
 */
export function readHumanReadable(
  text: string,
  start: number,
  currentYear: number,
): Gs1Data | LabelError {
  const data = noElements();
  const span: Span = { text, start, end: start, currentYear };
  let bracket = bracketAt(text, skipSpaces(text, start));
  while (bracket !== undefined) {
    const fact = findAi(bracket.ai);
    if (fact === undefined) return unknownAi(bracket);
    const { next, stray } = findNext(text, bracket.end, fact);
    if (stray !== undefined && acceptsOnlyDigits(fact)) return unknownAi(stray);
    const valueAt = skipSpaces(text, bracket.end);
    span.start = valueAt;
    span.end = skipSpacesBack(text, next?.at ?? text.length, valueAt);
    const end = span.end;
    const fault = checkValue(fact, span);
    if (fault !== undefined) return fault;
    if (stray !== undefined) {
      const length = stray.end - stray.at;
      data.warnings.push({ kind: "brackets_in_value", at: stray.at, length, ai: fact.ai });
    }
    addElement(data, fact, { value: text.slice(valueAt, end), start: bracket.at, end });
    bracket = next;
  }
  return data;
}

function unknownAi({ at, end, ai }: Bracket): LabelError {
  return { kind: "unknown_ai", at, length: end - at, ai };
}

function acceptsOnlyDigits(fact: AiFact): boolean {
  return fact.components.every(({ set }) => set === DIGITS);
}

/** Two to four digits between brackets at `at`. */
function bracketAt(text: string, at: number): Bracket | undefined {
  if (text.charAt(at) !== "(") return undefined;
  const close = text.slice(at, at + 6).indexOf(")") + at;
  if (close < at + 3 || firstOutside(text, at + 1, close, DIGITS) !== -1) return undefined;
  return { at, end: close + 1, ai: text.slice(at + 1, close) };
}

/** The bracket that opens the next element, and the first on the way there that does not. */
function findNext(
  text: string,
  from: number,
  current: AiFact,
): { next: Bracket | undefined; stray: Bracket | undefined } {
  let stray: Bracket | undefined;
  let at = text.indexOf("(", from);
  while (at !== -1) {
    const bracket = bracketAt(text, at);
    if (bracket !== undefined && findAi(bracket.ai) !== undefined) return { next: bracket, stray };
    stray ??= bracket;
    if (stray !== undefined && acceptsOnlyDigits(current)) break;
    at = text.indexOf("(", at + 1);
  }
  return { next: undefined, stray };
}

function skipSpaces(text: string, from: number): number {
  let at = from;
  while (text.charCodeAt(at) === 32) at += 1;
  return at;
}

function skipSpacesBack(text: string, from: number, floor: number): number {
  let at = from;
  while (at > floor && text.charCodeAt(at - 1) === 32) at -= 1;
  return at;
}
