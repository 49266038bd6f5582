// Within a test a look at a global takes longer than the arithmetic.
const { imul } = Math;

/**
 * Random numbers from a seed, the same on every machine: millions a second, which the generators
 * of a property-testing library are not. The mixing is that of "mulberry32", public domain.
 */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed | 0;
  }

  /** A whole number from 0 to one less than the limit. */
  below(limit: number): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let mixed = imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    mixed ^= mixed + imul(mixed ^ (mixed >>> 7), 61 | mixed);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % limit;
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
