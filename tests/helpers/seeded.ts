/** Random choices that one number repeats: a failure is replayed with the seed that it printed. */
export interface Seeded {
  readonly seed: number;
  /** From 0 up to, not including, `below`. */
  int(below: number): number;
  pick<T>(list: readonly T[]): T;
  chance(probability: number): boolean;
}

/** The mulberry32 generator (public domain; from memory). */
export function seeded(seed: number): Seeded {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const int = (below: number) => Math.floor(next() * below);
  return {
    seed,
    int,
    pick: (list) => list[int(list.length)]!,
    chance: (probability) => next() < probability,
  };
}

/** The seed that was asked for by `TUBULE_SEED`, else a new one. */
export function chooseSeed(): number {
  const asked = Number(process.env["TUBULE_SEED"]);
  return Number.isInteger(asked) && asked > 0 ? asked : (Date.now() % 1_000_000_000) + 1;
}
