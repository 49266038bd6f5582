import { DIGITS, firstOutside } from "./character-sets.ts";
import type { Gs1Data } from "./gs1.ts";
import { faultInYymmdd } from "./label-date.ts";

const WRITTEN_SEPARATOR = "<GS>";
const DATE_ELEMENT_LENGTH = 8;

/**
 * Adds the warning `separator_suspected` to an element string that was read without fault: a value
 * contains `<GS>`, which is legal data, or the last value is a lot or serial that ends like an
 * expiry element, (17) and a date, on a label without one. A lost separator cannot be detected and
 * nothing is split here; a person is asked to look (project rule). `text` is the raw text.
 */
export function suspectSeparators(text: string, data: Gs1Data, currentYear: number): void {
  const { elements, facts, ends } = data;
  let written = text.indexOf(WRITTEN_SEPARATOR);
  let holder = 0;
  for (; written !== -1; written = text.indexOf(WRITTEN_SEPARATOR, written + 1)) {
    while ((ends[holder] ?? text.length) <= written) holder += 1;
    const ai = facts[holder]?.ai ?? "";
    const length = WRITTEN_SEPARATOR.length;
    data.warnings.push({ kind: "separator_suspected", at: written, length, ai });
  }
  const last = elements[elements.length - 1];
  if (last === undefined || (last.ai !== "10" && last.ai !== "21")) return;
  if (endsLikeExpiry(last.value, currentYear) && !facts.some(({ ai }) => ai === "17")) {
    const length = DATE_ELEMENT_LENGTH;
    const at = (ends[ends.length - 1] ?? 0) - length;
    data.warnings.push({ kind: "separator_suspected", at, length, ai: last.ai });
  }
}

function endsLikeExpiry(value: string, currentYear: number): boolean {
  const at = value.length - DATE_ELEMENT_LENGTH;
  return (
    at > 0 &&
    value.startsWith("17", at) &&
    firstOutside(value, at + 2, value.length, DIGITS) === -1 &&
    faultInYymmdd(value, at + 2, currentYear) === -1
  );
}
