import { placeOf, type Gs1Data } from "./gs1.ts";
import { fieldsOfElements } from "./gs1-fields.ts";
import {
  findConflictingDuplicate,
  findExclusivePair,
  findMissingCompanions,
} from "./gs1-relations.ts";
import type { LabelElement, LabelError, LabelFields, LabelScheme, LabelWarning } from "./result.ts";

/** A label that was read, but for its raw text. */
export type Finished = {
  scheme: LabelScheme;
  elements: LabelElement[];
  fields: LabelFields;
  warnings: LabelWarning[];
};

/** How to finish: the century, whether companions must be there, and what is already known. */
export type FinishOptions = {
  currentYear: number;
  enforce: boolean;
  scheme: LabelScheme;
  warnings: LabelWarning[];
};

/**
 * Answers the finished label for all GS1 elements of it. Errors: `exclusive_ai_pair`,
 * `missing_companion_ai` (a warning unless companions are enforced), `conflicting_duplicate_ai`.
 * Source: GS1 General Specifications 4.13.
 */
export function finishGs1(data: Gs1Data, options: FinishOptions): Finished | LabelError {
  const { currentYear, enforce, scheme, warnings } = options;
  const pair = findExclusivePair(data.facts);
  if (pair !== -1) return { kind: "exclusive_ai_pair", ...placeOf(data, pair) };
  for (const index of findMissingCompanions(data.facts)) {
    const missing = { kind: "missing_companion_ai" as const, ...placeOf(data, index) };
    if (enforce) return missing;
    warnings.push(missing);
  }
  const repeated = findConflictingDuplicate(data.elements);
  if (repeated !== -1) return { kind: "conflicting_duplicate_ai", ...placeOf(data, repeated) };
  const disagreeing: number[] = [];
  const fields = fieldsOfElements(data, currentYear, disagreeing);
  for (const index of disagreeing) {
    warnings.push({ kind: "dates_disagree", ...placeOf(data, index) });
  }
  return { scheme, elements: scheme === "gtin" ? [] : data.elements, fields, warnings };
}
