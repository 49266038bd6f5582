import { wholesFrom } from "../../libs/labels/random.fixture.ts";

/** Random numbers that are the same on every run for the same seed. */
export interface Random {
  /** From 0 up to but not including 1. */
  next(): number;
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  pick<Item>(items: readonly Item[]): Item;
  text(letters: string, length: number): string;
  /** Mean 0, deviation 1. */
  normal(): number;
}

// Looked up once: in a test's own context each look at a global is slow.
const { cos, floor, log, sqrt } = Math;

export function randomFrom(seed: number): Random {
  const drawn = wholesFrom(seed);
  const next = (): number => drawn() / 2 ** 32;
  const between = (low: number, high: number): number => low + next() * (high - low);
  const whole = (low: number, high: number): number => floor(between(low, high + 1));
  const pick = <Item>(items: readonly Item[]): Item => items[whole(0, items.length - 1)]!;
  const text = (letters: string, length: number): string =>
    Array.from({ length }, () => letters[whole(0, letters.length - 1)]!).join("");
  const normal = (): number => sqrt(-2 * log(1 - next())) * cos(2 * Math.PI * next());
  return { next, between, whole, pick, text, normal };
}
