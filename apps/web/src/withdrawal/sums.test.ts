import { describe, expect, test } from "@jest/globals";
import {
  countPatients,
  countTeeth,
  listAffected,
  makeBalanceBars,
  sumBalances,
  type Balance,
  type TracedLot,
  type TracedTooth,
} from "./sums.ts";

const balance = (parts: Partial<Balance>): Balance => ({
  received: 0,
  onHand: 0,
  quarantined: 0,
  usedUp: 0,
  discarded: 0,
  returned: 0,
  lost: 0,
  countDifference: 0,
  unaccounted: 0,
  balanced: true,
  ...parts,
});

const tooth = (parts: Partial<TracedTooth>): TracedTooth => ({
  certainty: "certain",
  chartNumber: "C-1",
  tooth: "16",
  recordId: "r1",
  recordState: "signed",
  visit: "sealing",
  stepKey: "prime",
  containerCode: "CM5XVCV",
  usedAt: "2026-03-01T09:00:00.000Z",
  ...parts,
});

const lot = (parts: Partial<TracedLot>): TracedLot => ({
  lotId: "l1",
  lot: "AP-1",
  useBy: null,
  product: { id: "p1", name: "Alder Primer", kind: "primer" },
  identifiers: [],
  withdrawn: false,
  here: [],
  planned: [],
  teeth: [],
  patients: 0,
  balance: balance({}),
  ...parts,
});

describe("affected teeth", () => {
  test("count once each, by the firmest of what is known", () => {
    const teeth = [
      tooth({ certainty: "possible" }),
      tooth({ certainty: "certain", stepKey: "bond" }),
      tooth({ certainty: "possible", tooth: "17" }),
      tooth({ certainty: "inferred", chartNumber: "C-2" }),
    ];
    expect(countTeeth(teeth)).toEqual({ certain: 1, inferred: 1, possible: 1 });
    expect(countPatients(teeth)).toBe(2);
  });

  test("are listed certain first, then by time, each with its product and lot", () => {
    const early = tooth({ certainty: "possible", usedAt: "2026-01-01T09:00:00.000Z" });
    const late = tooth({ tooth: "36", usedAt: "2026-05-01T09:00:00.000Z" });
    const lots = [lot({ teeth: [early, late] }), lot({ lot: "AP-2", teeth: [tooth({})] })];
    expect(listAffected(lots).map((one) => [one.lot, one.tooth, one.certainty])).toEqual([
      ["AP-2", "16", "certain"],
      ["AP-1", "36", "certain"],
      ["AP-1", "16", "possible"],
    ]);
    expect(listAffected(lots)[0]?.product).toBe("Alder Primer");
  });
});

describe("the books of several lots", () => {
  test("add up, and balance only where each does", () => {
    const whole = lot({ balance: balance({ received: 2, onHand: 2 }) });
    const short = balance({ received: 3, usedUp: 2, unaccounted: 1, balanced: false });
    const over = balance({ received: 1, onHand: 2, unaccounted: -1, balanced: false });
    const sum = sumBalances([whole, lot({ balance: short }), lot({ balance: over })]);
    // One missing and one too many come to nothing, and are two faults all the same.
    expect(sum).toMatchObject({ received: 6, onHand: 4, usedUp: 2, unaccounted: 0 });
    expect(sum.balanced).toBe(false);
    expect(sumBalances([whole]).balanced).toBe(true);
  });
});

describe("the balance bars", () => {
  const barsOf = (parts: Partial<Balance>) => {
    const { bars, zero } = makeBalanceBars(balance(parts));
    return { zero, at: Object.fromEntries(bars.map(({ key, from, size }) => [key, [from, size]])) };
  };

  test("run down from what was received to zero", () => {
    const { zero, at } = barsOf({ received: 4, onHand: 2, usedUp: 1, discarded: 1 });
    expect(zero).toBe(0);
    expect(at).toMatchObject({
      received: [0, 1],
      onHand: [0.5, 0.5],
      usedUp: [0.25, 0.25],
      discarded: [0, 0.25],
      unaccounted: [0, 0],
    });
  });

  test("leave what is missing standing at zero", () => {
    const { at } = barsOf({ received: 4, onHand: 3, unaccounted: 1 });
    expect(at["unaccounted"]).toEqual([0, 0.25]);
  });

  test("run beyond zero where more is on the books than came", () => {
    const { zero, at } = barsOf({ received: 3, onHand: 4, unaccounted: -1 });
    expect(zero).toBe(0.25);
    expect(at["received"]).toEqual([0.25, 0.75]);
    expect(at["onHand"]).toEqual([0, 1]);
    expect(at["unaccounted"]).toEqual([0, 0.25]);
  });

  test("are empty where nothing was ever received", () => {
    expect(barsOf({}).at["received"]).toEqual([0, 0]);
  });
});
