import { BASE_64, DIGITS, numberAt, SET_39, SET_82 } from "./character-sets.ts";
import { AI_LINES, MEASURE_LINES, PREDEFINED_LENGTHS } from "./ai-table.ts";
import { contentRules, type ContentRule } from "./content-rules.ts";

/** One component of a value: its length, its character set, its content rules. */
type Component = { min: number; max: number; set: number; rules: readonly ContentRule[] };

/** A run of AIs as numbers: one AI when `low` equals `high`, a pattern such as 31nn otherwise. */
export type AiRange = { low: number; high: number };

/** What the standard says about one application identifier. */
export type AiFact = {
  ai: string;
  /** The AI as a number. No two AIs share one, since those of two digits come below 100. */
  number: number;
  /** Length of the value when the element ends without a separator, otherwise 0. */
  predefinedLength: number;
  min: number;
  max: number;
  components: readonly Component[];
  /** Whether a GS1 Digital Link may carry it as a query attribute. */
  isLinkAttribute: boolean;
  /** Alternatives of which one must be there in full; empty when nothing is needed. */
  needs: readonly (readonly AiRange[])[];
  excludes: readonly AiRange[];
  /** Unit of a measure, and the number of its decimals. */
  measure?: { unit: string; decimals: number };
};

const SETS: Readonly<Record<string, number>> = { N: DIGITS, X: SET_82, Y: SET_39, Z: BASE_64 };

function readComponent(text: string): Component & { isOptional: boolean } {
  const [shape = "", ...ruleNames] = text.split(":");
  const isOptional = shape.endsWith("?");
  const [min = "", max = min] = shape.slice(1, isOptional ? -1 : undefined).split("-");
  const rules = ruleNames.map((name) => {
    const rule = contentRules.get(name);
    if (rule === undefined) throw new Error(`no content rule ${name}`);
    return rule;
  });
  const set = SETS[shape.charAt(0)] ?? 0;
  return { min: Number(min), max: Number(max), set, rules, isOptional };
}

function readRange(pattern: string): AiRange {
  return { low: Number(pattern.replaceAll("n", "0")), high: Number(pattern.replaceAll("n", "9")) };
}

function listOf(text: string): string[] {
  return text === "" ? [] : text.split(",");
}

type Association = { link: "?" | "-"; needs?: string; excludes?: string };

function makeFact(ai: string, format: string, association: Association): AiFact {
  const { link, needs = "", excludes = "" } = association;
  const components = format.split(" ").map(readComponent);
  const predefined = PREDEFINED_LENGTHS.get(ai.slice(0, 2));
  return {
    ai,
    number: Number(ai),
    predefinedLength: predefined === undefined ? 0 : predefined - ai.length,
    min: components.reduce((sum, { min, isOptional }) => sum + (isOptional ? 0 : min), 0),
    max: components.reduce((sum, { max }) => sum + max, 0),
    components,
    isLinkAttribute: link === "?",
    needs: listOf(needs).map((alternative) => alternative.split("+").map(readRange)),
    excludes: listOf(excludes).map(readRange),
  };
}

function allFacts(): AiFact[] {
  const facts: AiFact[] = [];
  for (const [ais, format, link, needs = "", excludes = ""] of AI_LINES) {
    const [first = "", last = first] = ais.split("-");
    for (let number = Number(first); number <= Number(last); number += 1) {
      const ai = `${number}`.padStart(first.length, "0");
      facts.push(makeFact(ai, format, { link, needs, excludes }));
    }
  }
  for (const [family, unit, needs] of MEASURE_LINES) {
    for (let decimals = 0; decimals <= 5; decimals += 1) {
      const association: Association = { link: "?", needs, excludes: `${family}n` };
      const fact = makeFact(`${family}${decimals}`, "N6", association);
      facts.push({ ...fact, measure: { unit, decimals } });
    }
  }
  return facts;
}

const factsByNumber: (AiFact | undefined)[] = Array.from({ length: 10_000 });
const aiLengthByPrefix = new Uint8Array(100);

for (const fact of allFacts()) {
  factsByNumber[fact.number] = fact;
  aiLengthByPrefix[Number(fact.ai.slice(0, 2))] = fact.ai.length;
}

/** Every known AI, in ascending order of its number. */
export const aiFacts: readonly AiFact[] = factsByNumber.filter((fact) => fact !== undefined);

/**
 * Answers the AI with which the element at `at` begins, or undefined when none is known there. The
 * first two digits decide how long an AI is, so nothing is guessed. Source: GS1 General
 * Specifications Figure 7.8.2-1.
 */
export function aiAt(text: string, at: number): AiFact | undefined {
  const first = text.charCodeAt(at) - 48;
  const second = text.charCodeAt(at + 1) - 48;
  if (!(first >= 0 && first <= 9 && second >= 0 && second <= 9)) return undefined;
  const length = aiLengthByPrefix[first * 10 + second] ?? 0;
  if (length === 0) return undefined;
  const number = numberAt(text, at, at + length);
  const fact = factsByNumber[number];
  // A character that is no digit may still add up to the number of an AI, or make it NaN.
  return fact !== undefined && text.startsWith(fact.ai, at) ? fact : undefined;
}

/** Answers what is known of an AI given in full, or undefined. */
export function findAi(ai: string): AiFact | undefined {
  const fact = aiAt(ai, 0);
  return fact?.ai === ai ? fact : undefined;
}

/**
 * Answers what stands in the place of an AI at `at`, for an error message: as many digits as an AI
 * with these first two digits has, or fewer.
 */
export function unknownAiAt(text: string, at: number): string {
  const length = aiLengthByPrefix[numberAt(text, at, at + 2)] || 2;
  return /^\d*/.exec(text.slice(at, at + length))?.[0] ?? "";
}
