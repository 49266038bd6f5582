import type { AiFact } from "./ai-facts.ts";
import { firstOutside } from "./character-sets.ts";
import type { Span } from "./content-rules.ts";
import type { LabelError } from "./result.ts";

/**
 * Answers undefined when the span holds a valid value of this AI, otherwise the first error in it:
 * `empty_value`, `value_too_short`, `value_too_long`, `invalid_character`, or what a content rule
 * says. The span is left on the component examined last. Source: GS1 General Specifications 7.8
 * and 7.11; Syntax Dictionary for the components of each AI.
 */
export function checkValue(fact: AiFact, span: Span): LabelError | undefined {
  const { text, start, end } = span;
  const { ai } = fact;
  const length = end - start;
  if (length === 0) return { kind: "empty_value", at: start, length, ai };
  if (length < fact.min) return { kind: "value_too_short", at: start, length, ai };
  if (length > fact.max) {
    return { kind: "value_too_long", at: start + fact.max, length: length - fact.max, ai };
  }
  let at = start;
  for (const component of fact.components) {
    if (at === end) break;
    const stop = Math.min(end, at + component.max);
    if (stop - at < component.min) return { kind: "value_too_short", at, length: stop - at, ai };
    const bad = firstOutside(text, at, stop, component.set);
    if (bad !== -1) return { kind: "invalid_character", at: bad, length: 1, ai };
    span.start = at;
    span.end = stop;
    for (const rule of component.rules) {
      const fault = rule(span);
      if (fault !== undefined) {
        fault.ai = ai;
        return fault;
      }
    }
    at = stop;
  }
  return undefined;
}
