import { findAi } from "./ai-facts.ts";
import { GS } from "./gs1.ts";
import type { LabelElement } from "./result.ts";

/**
 * Answers the element string for `elements`, in their order, as a scanner delivers it without a
 * symbology identifier: a group separator follows every element but the last, unless its length is
 * predefined. Values are not checked, so that a caller reads the answer back with `readLabel` to
 * know that it is valid. Source: GS1 General Specifications 7.8.
 */
export function encodeElementString(elements: readonly LabelElement[]): string {
  const last = elements.length - 1;
  return elements
    .map(({ ai, value }, index) => {
      const isSelfEnding = (findAi(ai)?.predefinedLength ?? 0) > 0;
      return ai + value + (index === last || isSelfEnding ? "" : GS);
    })
    .join("");
}
