import { GS } from "./gs1.ts";
import type { LabelWarning } from "./result.ts";

/** The record separator, which frames the messages of ISO/IEC 15434. */
export const RS = "\u001e";
/** End of transmission, which closes the messages of ISO/IEC 15434. */
export const EOT = "\u0004";

type Token = readonly [text: string, control: string];

/**
 * Texts that scanners send in place of a control character. Each contains a character that no GS1
 * value may contain, so none can be data (project rule, from observed scanners).
 */
const DEFAULT_TOKENS: readonly Token[] = [
  ["{GS}", GS],
  ["[GS]", GS],
  ["^]", GS],
  ["\u241d", GS],
  ["|", GS],
  ["{RS}", RS],
  ["[RS]", RS],
  ["^^", RS],
  ["\u241e", RS],
  ["{EOT}", EOT],
  ["[EOT]", EOT],
  ["^D", EOT],
  ["\u2404", EOT],
];

/** Every default token begins with one of these; most texts hold none and need no search. */
const FIRST_OF_DEFAULT = /[[{^|\u2404\u241d\u241e]/;

/** A text with its control characters restored, and the way back to positions in the raw text. */
export type Restored = {
  text: string;
  warnings: LabelWarning[];
  /** Answers the position in the raw text for one in the restored text. */
  rawPosition: (at: number) => number;
};

/**
 * Answers `text` with every substitute for a control character replaced, or undefined when there is
 * none from `start` on. `profile` holds what this scanner sends for the group separator beyond the
 * defaults. The warnings say `separator_substituted` for every place.
 */
export function restoreSeparators(
  text: string,
  start: number,
  profile: readonly string[],
): Restored | undefined {
  if (profile.length === 0 && !FIRST_OF_DEFAULT.test(text)) return undefined;
  const tokens = profile.length === 0 ? DEFAULT_TOKENS : withProfile(profile);
  const pieces: string[] = [];
  const shifts: Shift[] = [];
  const warnings: LabelWarning[] = [];
  let copied = 0;
  let shift = 0;
  for (let at = start; at < text.length; at += 1) {
    const found = tokens.find(([token]) => text.startsWith(token, at));
    if (found === undefined) continue;
    const [token, control] = found;
    pieces.push(text.slice(copied, at), control);
    copied = at + token.length;
    shift += token.length - 1;
    shifts.push({ from: copied - shift, by: shift });
    warnings.push({ kind: "separator_substituted", at, length: token.length });
    at = copied - 1;
  }
  if (warnings.length === 0) return undefined;
  pieces.push(text.slice(copied));
  return {
    text: pieces.join(""),
    warnings,
    rawPosition: (at) => at + shiftAt(shifts, at),
  };
}

/** By how much the raw text runs ahead of the restored one from a position on. */
type Shift = { from: number; by: number };

/** The last shift that begins at or before `at`, found by halving. */
function shiftAt(shifts: readonly Shift[], at: number): number {
  let low = 0;
  let high = shifts.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((shifts[middle]?.from ?? 0) <= at) low = middle + 1;
    else high = middle;
  }
  return shifts[low - 1]?.by ?? 0;
}

/**
 * The scanner's own texts come first, and longer ones before those with which they begin. A default
 * that begins with one of its own is none of its texts: what follows is data.
 */
function withProfile(profile: readonly string[]): readonly Token[] {
  const own = profile.filter((token) => token !== "").map((token): Token => [token, GS]);
  const others = DEFAULT_TOKENS.filter(([token]) => !own.some(([text]) => token.startsWith(text)));
  return [...own, ...others].sort(([a], [b]) => b.length - a.length);
}
