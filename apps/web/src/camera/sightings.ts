/**
 * Decides which symbols in view are given on as scans, over the frames of a camera or for one
 * photo. A person points a scanner at one symbol; a camera sees all that a pack bears. So a symbol
 * goes once until it has left the picture; the halves of a label go together, product first; and a
 * symbol that says less than the one beside it does not go at all. Pure: it is told the time.
 */
import type { Sight } from "./sight.ts";

/**
 * How long a symbol must be out of the picture before it counts anew. Two packs can bear the same
 * label; of the practice's own codes each is on one thing alone, which may lie in view for long.
 */
export const awayMs = { own: 10_000, other: 3_000 };
/** Symbols seen within this time stand beside each other: one look may find one alone. */
const besideMs = 700;
/** How long a half waits for its other half to be seen, and what is no label for a better one. */
const waitMs = { product: 1_200, lot: 1_200, other: 2_000 };

interface Seen {
  sight: Sight;
  firstMs: number;
  lastMs: number;
  /** Given on, or left out for one that says more. */
  isDone: boolean;
}

export interface Decided {
  /** What to give on, in this order. */
  give: string[];
  /** Halves of more than one label are in view: which belong together cannot be told. */
  isCrowded: boolean;
}

type Fits = (first: string, second: string) => boolean;

export class Sightings {
  readonly #seen = new Map<string, Seen>();
  readonly #fits: Fits;

  /** `fits` says whether two symbols make one label. */
  constructor(fits: Fits) {
    this.#fits = fits;
  }

  /** Takes what one look found; a photo is the only look of its kind, and nothing waits. */
  next(sights: readonly Sight[], atMs: number, isOnly = false): Decided {
    for (const [text, { lastMs, sight }] of this.#seen) {
      const longest = sight.part === "own" ? awayMs.own : awayMs.other;
      if (atMs - lastMs > longest) this.#seen.delete(text);
    }
    for (const sight of sights) this.#note(sight, atMs);
    const beside = [...this.#seen.values()].filter(({ lastMs }) => atMs - lastMs <= besideMs);
    const speaking = beside.filter(({ sight }) => sight.part === "own" || sight.part === "whole");
    if (speaking.length > 0) {
      const give = listSpeaking(speaking);
      for (const seen of beside) {
        seen.isDone ||= give.includes(seen.sight.text) || wereTogether(seen, speaking);
      }
      return { give, isCrowded: false };
    }
    return this.#joinHalves(
      beside.filter(({ isDone }) => !isDone),
      isOnly ? Number.POSITIVE_INFINITY : atMs,
    );
  }

  #note(sight: Sight, atMs: number): void {
    const seen = this.#seen.get(sight.text);
    if (seen === undefined) {
      this.#seen.set(sight.text, { sight, firstMs: atMs, lastMs: atMs, isDone: false });
      return;
    }
    if (atMs - seen.lastMs > besideMs) seen.firstMs = atMs;
    seen.lastMs = atMs;
  }

  #joinHalves(open: readonly Seen[], atMs: number): Decided {
    const [product, ...products] = open.filter(({ sight }) => sight.part === "product");
    const [lot, ...lots] = open.filter(({ sight }) => sight.part === "lot");
    if (product !== undefined && lot !== undefined) {
      const give = [product.sight.text, lot.sight.text] as const;
      const isCrowded = products.length + lots.length > 0 || !this.#fits(...give);
      if (isCrowded) return { give: [], isCrowded };
      for (const seen of open) seen.isDone = true;
      return { give: [...give], isCrowded };
    }
    const alone = open.filter(
      ({ sight: { part }, firstMs }) =>
        part !== "own" && part !== "whole" && atMs - firstMs >= waitMs[part],
    );
    for (const seen of alone) seen.isDone = true;
    return { give: alone.map(({ sight }) => sight.text), isCrowded: false };
  }
}

/** Whether a symbol was in view together with another: not right after the other had gone. */
const wereTogether = (seen: Seen, others: readonly Seen[]): boolean =>
  others.some((other) => other !== seen && other.lastMs >= seen.firstMs);

/** Own codes speak for what bears them; else labels, unless one lot is told by two standards. */
function listSpeaking(speaking: readonly Seen[]): string[] {
  const own = speaking.filter(({ sight }) => sight.part === "own");
  const told: Seen[] = [];
  for (const seen of own.length > 0 ? own : speaking) {
    const { lot, scheme } = seen.sight;
    const isToldTwice =
      lot !== undefined && told.some(({ sight }) => sight.lot === lot && sight.scheme !== scheme);
    if (!isToldTwice) told.push(seen);
  }
  return told.filter(({ isDone }) => !isDone).map(({ sight }) => sight.text);
}
