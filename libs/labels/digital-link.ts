import { findAi, type AiFact } from "./ai-facts.ts";
import { DIGITS, firstOutside, HOST_CHARACTERS, URI_CHARACTERS } from "./character-sets.ts";
import { addElement, noElements, type Gs1Data } from "./gs1.ts";
import { checkValue } from "./gs1-value.ts";
import type { LabelError } from "./result.ts";

/**
 * The keys of a GS1 Digital Link with their qualifiers: alternatives, each in the order that the
 * path must keep, every qualifier optional. Facts: GS1 Digital Link URI Syntax 1.4.1; Syntax
 * Dictionary.
 */
const KEY_QUALIFIERS: Readonly<Record<string, readonly (readonly string[])[]>> = {
  "00": [[]],
  "01": [["22", "10", "21"], ["235"]],
  "253": [[]],
  "255": [[]],
  "401": [[]],
  "402": [[]],
  "414": [["254"], ["7040"]],
  "415": [["8020"]],
  "417": [["7040"]],
  "8003": [[]],
  "8004": [["7040"]],
  "8006": [["22", "10", "21"]],
  "8010": [["8011"]],
  "8013": [[]],
  "8017": [["8019"]],
  "8018": [["8019"]],
};

/** How to read a link beyond what the standard fixes. */
export type LinkOptions = { currentYear: number; permitZeroSuppressedGtin: boolean };

/** A piece of the URI from `start` up to `end`. */
type Piece = { start: number; end: number };

/** An AI and its value where they stand in the URI, the value still percent-encoded. */
type Pair = { fact: AiFact; aiAt: number; value: Piece; isInPath: boolean };

/** Answers whether `text` from `start` on begins like a web address, in any case. */
export function isWebAddress(text: string, start: number): boolean {
  return /^https?:\/\//i.test(text.slice(start, start + 8));
}

/**
 * Answers the elements of a GS1 Digital Link that fills `text` from `start` to its end, key first,
 * then qualifiers, then query attributes. The last key in the path counts; what stands before it is
 * a custom stem. The fragment, and query parameters that are no AI, are ignored. Errors:
 * `invalid_character` outside the characters of a URI, `not_a_digital_link` without host or key,
 * `dl_key_qualifier_order`, `dl_attribute_not_allowed`, `dl_duplicate_ai`, `unknown_ai` for a
 * parameter of digits only, and those of `checkValue`. Compressed links are not supported. Source:
 * GS1 Digital Link URI Syntax 1.4.1 (grammar); that a qualifier of the key may not be an attribute,
 * and that a plus in a query is a space, follow the GS1 syntax engine.
 */
export function readDigitalLink(
  text: string,
  start: number,
  options: LinkOptions,
): Gs1Data | LabelError {
  const bad = firstOutside(text, start, text.length, URI_CHARACTERS);
  if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1 };
  const hostAt = text.indexOf("//", start) + 2;
  const fragmentAt = text.indexOf("#", hostAt);
  const end = fragmentAt === -1 ? text.length : fragmentAt;
  const questionAt = text.slice(0, end).indexOf("?", hostAt);
  const pathEnd = questionAt === -1 ? end : questionAt;
  const noLink: LabelError = { kind: "not_a_digital_link", at: start, length: text.length - start };
  const pathAt = text.slice(0, pathEnd).indexOf("/", hostAt);
  if (pathAt <= hostAt || firstOutside(text, hostAt, pathAt, HOST_CHARACTERS) !== -1) return noLink;
  const path = pathPairs(text, pathAt, pathEnd);
  if (path === undefined) return noLink;
  const sequences = allowedSequences(path);
  if (!Array.isArray(sequences)) return sequences;
  const query = queryPairs(text, { start: questionAt === -1 ? end : questionAt + 1, end });
  if (!Array.isArray(query)) return query;
  const misplaced = misplacedAttribute(path, query, sequences);
  return misplaced ?? readPairs(text, [...path, ...query], options);
}

/**
 * Walks back from the end of the path, two segments at a time, to the last key; answers undefined
 * when a segment in the place of an AI is none.
 */
function pathPairs(text: string, pathAt: number, pathEnd: number): Pair[] | undefined {
  const pairs: Pair[] = [];
  let end = pathEnd;
  while (end > pathAt) {
    const valueSlash = text.lastIndexOf("/", end - 1);
    const aiSlash = valueSlash > pathAt ? text.lastIndexOf("/", valueSlash - 1) : -1;
    if (aiSlash < pathAt) return undefined;
    const fact = findAi(text.slice(aiSlash + 1, valueSlash));
    if (fact === undefined) return undefined;
    const value = { start: valueSlash + 1, end };
    pairs.push({ fact, aiAt: aiSlash + 1, value, isInPath: true });
    if (fact.ai in KEY_QUALIFIERS) return pairs.reverse();
    end = aiSlash;
  }
  return undefined;
}

/** The qualifier sequences of the key that the path follows, or the pair that breaks them all. */
function allowedSequences(path: readonly Pair[]): (readonly string[])[] | LabelError {
  const [key, ...qualifiers] = path;
  const sequences = KEY_QUALIFIERS[key?.fact.ai ?? ""] ?? [];
  let furthest = 0;
  const followed = sequences.filter((sequence) => {
    let position = -1;
    return qualifiers.every(({ fact }, index) => {
      position = sequence.indexOf(fact.ai, position + 1);
      if (position !== -1) furthest = Math.max(furthest, index + 1);
      return position !== -1;
    });
  });
  const breaking = qualifiers[furthest];
  if (followed.length > 0 || breaking === undefined) return followed;
  const { aiAt, value, fact } = breaking;
  return { kind: "dl_key_qualifier_order", at: aiAt, length: value.end - aiAt, ai: fact.ai };
}

function queryPairs(text: string, query: Piece): Pair[] | LabelError {
  const pairs: Pair[] = [];
  let at = query.start;
  while (at < query.end) {
    let end = at;
    while (end < query.end && text.charAt(end) !== "&" && text.charAt(end) !== ";") end += 1;
    const pair = queryPair(text, { start: at, end });
    if (pair !== undefined && "kind" in pair) return pair;
    if (pair !== undefined) pairs.push(pair);
    at = end + 1;
  }
  return pairs;
}

function queryPair(text: string, parameter: Piece): Pair | LabelError | undefined {
  const { start, end } = parameter;
  const equals = text.slice(start, end).indexOf("=") + start;
  if (equals <= start || firstOutside(text, start, equals, DIGITS) !== -1) return undefined;
  const ai = text.slice(start, equals);
  const fact = findAi(ai);
  if (fact === undefined) return { kind: "unknown_ai", at: start, length: equals - start, ai };
  return { fact, aiAt: start, value: { start: equals + 1, end }, isInPath: false };
}

/** An attribute that is none, that belongs into the path, or that is there already. */
function misplacedAttribute(
  path: readonly Pair[],
  query: readonly Pair[],
  sequences: readonly (readonly string[])[],
): LabelError | undefined {
  const seen = new Set(path.map(({ fact }) => fact.ai));
  for (const { fact, aiAt, value } of query) {
    const span = { at: aiAt, length: value.end - aiAt, ai: fact.ai };
    if (seen.has(fact.ai)) return { kind: "dl_duplicate_ai", ...span };
    if (!fact.isLinkAttribute || sequences.some((sequence) => sequence.includes(fact.ai))) {
      return { kind: "dl_attribute_not_allowed", ...span };
    }
    seen.add(fact.ai);
  }
  return undefined;
}

function readPairs(
  text: string,
  pairs: readonly Pair[],
  options: LinkOptions,
): Gs1Data | LabelError {
  const data = noElements();
  for (const { fact, aiAt, value, isInPath } of pairs) {
    const decoded = percentDecode(text.slice(value.start, value.end), isInPath);
    const whole = options.permitZeroSuppressedGtin ? fillGtin(fact, decoded) : decoded;
    const { currentYear } = options;
    const fault = checkValue(fact, { text: whole, start: 0, end: whole.length, currentYear });
    if (fault !== undefined) {
      const filled = whole.length - decoded.length;
      const from = rawOffset(text, value, fault.at - filled);
      const to = rawOffset(text, value, fault.at - filled + fault.length);
      return { ...fault, at: from, length: to - from };
    }
    addElement(data, fact, { value: whole, start: aiAt, end: value.end });
  }
  return data;
}

function fillGtin(fact: AiFact, value: string): string {
  const { length } = value;
  if (fact.ai !== "01" || (length !== 8 && length !== 12 && length !== 13)) return value;
  return value.padStart(14, "0");
}

const ESCAPE = /%([0-9A-Fa-f]{2})/g;

/** Each escaped byte becomes one character; those above 127 are in no set of GS1. */
function percentDecode(value: string, isInPath: boolean): string {
  if (!value.includes("%") && !value.includes("+")) return value;
  const spaced = isInPath ? value : value.replaceAll("+", " ");
  return spaced.replace(ESCAPE, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));
}

/** The position in the URI of the character `count` characters into a decoded value. */
function rawOffset(text: string, value: Piece, count: number): number {
  let at = value.start;
  for (let left = count; left > 0 && at < value.end; left -= 1) {
    at += /^%[0-9A-Fa-f]{2}/.test(text.slice(at, Math.min(at + 3, value.end))) ? 3 : 1;
  }
  return at;
}
