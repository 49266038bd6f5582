import type { AiFact, AiRange } from "./ai-facts.ts";
import type { LabelElement } from "./result.ts";

/**
 * Answers the index of the first element whose AI must not appear together with another AI present,
 * or -1. An AI never excludes itself. Source: GS1 General Specifications 4.13, as `ex` in the
 * Syntax Dictionary; judged over all symbols of an item together.
 */
export function findExclusivePair(facts: readonly AiFact[]): number {
  const present = withoutRepeats(facts);
  for (const fact of present) {
    for (const range of fact.excludes) {
      if (isPresent(range, present, fact.number)) return facts.indexOf(fact);
    }
  }
  return -1;
}

/**
 * Answers the indexes of the elements that lack a companion, one for each AI: none of the
 * alternatives it needs is there in full. Source: GS1 General Specifications 4.13, as `req` in the
 * Syntax Dictionary; judged over all symbols of an item together.
 */
export function findMissingCompanions(facts: readonly AiFact[]): number[] {
  const present = withoutRepeats(facts);
  const missing: number[] = [];
  for (const fact of present) {
    if (!hasCompanions(fact, present)) missing.push(facts.indexOf(fact));
  }
  return missing;
}

/**
 * Answers the index of the first element that repeats an earlier AI with another value, or -1.
 * Equal repeats are fine. Source: GS1 General Specifications 4.13.
 */
export function findConflictingDuplicate(elements: readonly LabelElement[]): number {
  if (elements.length > FEW) return findConflictAmongMany(elements);
  for (let index = 1; index < elements.length; index += 1) {
    const { ai, value } = elements[index] ?? { ai: "", value: "" };
    for (let earlier = 0; earlier < index; earlier += 1) {
      if (elements[earlier]?.ai !== ai) continue;
      if (elements[earlier]?.value !== value) return index;
      // The ones between were compared with this earlier one in their own turn.
      break;
    }
  }
  return -1;
}

function findConflictAmongMany(elements: readonly LabelElement[]): number {
  const values = new Map<string, string>();
  for (const [index, { ai, value }] of elements.entries()) {
    const earlier = values.get(ai);
    if (earlier === undefined) values.set(ai, value);
    else if (earlier !== value) return index;
  }
  return -1;
}

function isPresent({ low, high }: AiRange, present: readonly AiFact[], except: number): boolean {
  for (const { number } of present) {
    if (number >= low && number <= high && number !== except) return true;
  }
  return false;
}

function hasCompanions({ needs, number }: AiFact, present: readonly AiFact[]): boolean {
  if (needs.length === 0) return true;
  for (const all of needs) {
    let found = 0;
    for (const range of all) if (isPresent(range, present, number)) found += 1;
    if (found === all.length) return true;
  }
  return false;
}

/** Up to here comparing each with each is faster than a set; beyond it the work would run away. */
const FEW = 16;

function withoutRepeats(facts: readonly AiFact[]): readonly AiFact[] {
  return facts.length > FEW ? [...new Set(facts)] : facts;
}
