// Within a test a look at a global takes longer than the arithmetic.
const { imul } = Math;

/**
 * Whole numbers from 0 to 2^32 - 1 from a seed, the same on every machine: millions a second, which
 * the generators of a property-testing library are not. The mulberry32 generator (public domain,
 * from memory).
 */
export function wholesFrom(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = imul(state ^ (state >>> 15), 1 | state);
    mixed ^= mixed + imul(mixed ^ (mixed >>> 7), 61 | mixed);
    return (mixed ^ (mixed >>> 14)) >>> 0;
  };
}

/** Random numbers and texts from a seed. */
export class Random {
  readonly #next: () => number;

  constructor(seed: number) {
    this.#next = wholesFrom(seed);
  }

  /** A whole number from 0 to one less than the limit. */
  below(limit: number): number {
    return this.#next() % limit;
  }

  /** A whole number between two, both included. */
  between(min: number, max: number): number {
    return min + this.below(max - min + 1);
  }

  pick<Item>(items: readonly Item[]): Item {
    return items[this.below(items.length)]!;
  }

  /** A text of so many of the characters. */
  text(characters: string, min: number, max = min): string {
    let text = "";
    for (let left = this.between(min, max); left > 0; left -= 1) {
      text += characters.charAt(this.below(characters.length));
    }
    return text;
  }
}
