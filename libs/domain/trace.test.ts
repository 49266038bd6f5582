import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { computeMassBalance, type LotQuantities } from "./trace.ts";

const none: LotQuantities = {
  received: 0,
  onHand: 0,
  quarantined: 0,
  usedUp: 0,
  discarded: 0,
  returned: 0,
  lost: 0,
  countDifference: 0,
};
const lot = { ...none, received: 24, onHand: 5, quarantined: 2, discarded: 1, returned: 1 };

describe("mass balance", () => {
  // Mass balance as in mock-recall practice: quantities accounted for over quantities received.
  test("says that one unit of 24 is missing, 95.8333 percent", () => {
    const balance = computeMassBalance({ ...lot, usedUp: 14 });
    expect(balance).toMatchObject({ accounted: 23, unaccounted: 1, balanced: false });
    expect(balance.accountedPercent).toBeCloseTo(95.8333, 3);
  });

  test("says that one unit too many is as bad, 104.1667 percent", () => {
    const balance = computeMassBalance({ ...lot, usedUp: 16 });
    expect(balance).toMatchObject({ accounted: 25, unaccounted: -1, balanced: false });
    expect(balance.accountedPercent).toBeCloseTo(104.1667, 3);
  });

  test("balances when every unit is found", () => {
    expect(computeMassBalance({ ...lot, usedUp: 15 })).toEqual({
      accounted: 24,
      unaccounted: 0,
      unexplained: 0,
      accountedPercent: 100,
      balanced: true,
    });
  });

  test("does not balance by declaring a unit lost or counting it away, which explains", () => {
    expect(computeMassBalance({ ...lot, usedUp: 14, lost: 1 })).toMatchObject({
      unaccounted: 1,
      unexplained: 0,
      balanced: false,
    });
    expect(computeMassBalance({ ...lot, usedUp: 16, countDifference: -1 })).toMatchObject({
      unaccounted: -1,
      unexplained: 0,
      balanced: false,
    });
  });

  test("does not balance where every unit is found and one is booked as lost all the same", () => {
    expect(computeMassBalance({ ...lot, usedUp: 15, lost: 1 })).toMatchObject({
      unaccounted: 0,
      unexplained: -1,
      balanced: false,
    });
  });

  test("has no percentage of nothing received", () => {
    expect(computeMassBalance(none)).toMatchObject({ accountedPercent: null, balanced: true });
    expect(computeMassBalance({ ...none, onHand: 1 })).toMatchObject({
      accountedPercent: null,
      unaccounted: -1,
      balanced: false,
    });
  });

  test("of a ledger whose movements all have two ends leaves nothing unexplained", () => {
    const units = fc.nat(50);
    const places = fc.record({
      onHand: units,
      quarantined: units,
      usedUp: units,
      discarded: units,
      returned: units,
      lost: units,
      countDifference: fc.integer({ min: -20, max: 20 }),
    });
    fc.assert(
      fc.property(places, (where) => {
        const received = Object.values(where).reduce((sum, count) => sum + count, 0);
        const balance = computeMassBalance({ ...where, received });
        expect(balance.unexplained).toBe(0);
        expect(balance.accounted + balance.unaccounted).toBe(received);
        expect(balance.balanced).toBe(where.lost + where.countDifference === 0);
      }),
    );
  });
});
