import { readLabel } from "#labels";
import { matrixFormats, type RawRead, type SymbolRead } from "./reader.ts";

/** Decides whether a text is known already, such as an identifier of the catalogue. */
export type IsKnown = (text: string) => boolean;

/** Passes that must give the same text: where it reads as a label, and where it does not. */
const enough = { readable: 2, strange: 4 };

interface Seen {
  passes: number;
  atMs: number;
}

/**
 * How often each linear symbol was seen. Bars that are blurred, or that are no symbol, can read as
 * a symbol whose check digit is right, and the rows of one pass are wrong together. So a linear
 * read counts only when two passes, or one pass over two frames, gave the same text; a text that is
 * no readable label needs more. One that the caller knows counts at once, and so does a matrix
 * symbol, which carries codewords for the correction of errors.
 */
export class Agreement {
  readonly #isKnown: IsKnown;
  readonly #keptMs: number;
  readonly #seen = new Map<string, Seen>();

  /** Reads are forgotten when they were not seen again for `keptMs`. */
  constructor(isKnown: IsKnown, keptMs: number) {
    this.#isKnown = isKnown;
    this.#keptMs = keptMs;
  }

  /**
   * Takes what each pass over the picture of one moment read; gives each text once, at the place
   * where it was seen first.
   */
  judge(passes: readonly (readonly RawRead[])[], atMs: number): SymbolRead[] {
    for (const [text, { atMs: before }] of this.#seen) {
      if (atMs - before > this.#keptMs) this.#seen.delete(text);
    }
    const first = new Map<string, RawRead>();
    for (const reads of passes) {
      for (const text of new Set(reads.map((read) => read.text))) {
        this.#seen.set(text, { passes: (this.#seen.get(text)?.passes ?? 0) + 1, atMs });
      }
      for (const read of reads) first.set(read.text, first.get(read.text) ?? read);
    }
    return [...first.values()].map((read) => ({ ...read, sure: this.#isSure(read) }));
  }

  #isSure({ format, text }: RawRead): boolean {
    if (matrixFormats.includes(format) || this.#isKnown(text)) return true;
    const passes = this.#seen.get(text)?.passes ?? 0;
    return passes >= (isReadable(text) ? enough.readable : enough.strange);
  }
}

/** The day decides only about centuries, and a symbol may need another for its companions. */
const isReadable = (text: string): boolean =>
  readLabel(text, { today: "2026-01-01", associations: "defer" }).ok;
