/** What the lots of a trace come to, taken together. */
import type { AnswerOf } from "#contracts/operations";

export type TracedLot = AnswerOf<"getWithdrawal">["trace"][number];
export type TracedTooth = TracedLot["teeth"][number];
export type Balance = TracedLot["balance"];
export type Certainty = TracedTooth["certainty"];

export const certainties: readonly Certainty[] = ["certain", "inferred", "possible"];

/** A tooth with the lot it has: a line of the list that goes out of the house. */
export interface AffectedTooth extends TracedTooth {
  product: string;
  lot: string;
}

/** The teeth of all lots, the certain ones first, each by the time of use. */
export function listAffected(lots: readonly TracedLot[]): readonly AffectedTooth[] {
  const rank = ({ certainty }: TracedTooth) => certainties.indexOf(certainty);
  return lots
    .flatMap(({ product, lot, teeth }) =>
      teeth.map((tooth) => ({ ...tooth, product: product.name, lot })),
    )
    .sort((a, b) => rank(a) - rank(b) || (a.usedAt < b.usedAt ? -1 : 1));
}

/**
 * How many different teeth there are of each certainty. A tooth that a lot met at two steps counts
 * once, by the firmest of what is known of it.
 */
export function countTeeth(teeth: readonly TracedTooth[]): Record<Certainty, number> {
  const firmest = new Map<string, Certainty>();
  for (const { chartNumber, tooth, certainty } of teeth) {
    const name = `${chartNumber} ${tooth}`;
    const known = firmest.get(name);
    if (known === undefined || certainties.indexOf(certainty) < certainties.indexOf(known)) {
      firmest.set(name, certainty);
    }
  }
  const counts = { certain: 0, inferred: 0, possible: 0 };
  for (const certainty of firmest.values()) counts[certainty] += 1;
  return counts;
}

export function countPatients(teeth: readonly TracedTooth[]): number {
  return new Set(teeth.map(({ chartNumber }) => chartNumber)).size;
}

/** The books of several lots as one. */
export function sumBalances(lots: readonly TracedLot[]): Balance {
  const sum = (name: Exclude<keyof Balance, "balanced">) =>
    lots.reduce((total, { balance }) => total + balance[name], 0);
  return {
    received: sum("received"),
    onHand: sum("onHand"),
    quarantined: sum("quarantined"),
    usedUp: sum("usedUp"),
    discarded: sum("discarded"),
    returned: sum("returned"),
    lost: sum("lost"),
    countDifference: sum("countDifference"),
    unaccounted: sum("unaccounted"),
    balanced: lots.every(({ balance }) => balance.balanced),
  };
}

export interface BalanceBar {
  key: "received" | "onHand" | "quarantined" | "usedUp" | "discarded" | "returned" | "unaccounted";
  count: number;
  /** Where the bar begins and how long it is, as parts of the whole width. */
  from: number;
  size: number;
}

const parts = ["onHand", "quarantined", "usedUp", "discarded", "returned"] as const;

/**
 * The books as bars that run down to zero: what was received, then each part taken off its end.
 * What is left is unaccounted; where more was accounted for than received, it lies beyond zero.
 */
export function makeBalanceBars(balance: Balance): { bars: readonly BalanceBar[]; zero: number } {
  const { received, unaccounted } = balance;
  const low = Math.min(0, unaccounted);
  const width = Math.max(received, 0) - low || 1;
  const bar = (key: BalanceBar["key"], count: number, from: number): BalanceBar => ({
    key,
    count,
    from: (from - low) / width,
    size: Math.abs(count) / width,
  });
  const bars = [bar("received", received, 0)];
  let left = received;
  for (const key of parts) {
    left -= balance[key];
    bars.push(bar(key, balance[key], left));
  }
  bars.push(bar("unaccounted", unaccounted, Math.min(0, unaccounted)));
  return { bars, zero: Math.abs(low) / width };
}
