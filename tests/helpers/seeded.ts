import { wholesFrom } from "../../libs/labels/random.fixture.ts";

/** Random choices that one number repeats: a failure is replayed with the seed that it printed. */
export interface Seeded {
  readonly seed: number;
  /** From 0 up to, not including, `below`. */
  int(below: number): number;
  pick<T>(list: readonly T[]): T;
  chance(probability: number): boolean;
}

export function seeded(seed: number): Seeded {
  const whole = wholesFrom(seed);
  const next = () => whole() / 2 ** 32;
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
