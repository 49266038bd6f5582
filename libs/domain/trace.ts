/** Quantities of one lot in whole units, as the ledger holds them. */
export interface LotQuantities {
  received: number;
  onHand: number;
  quarantined: number;
  usedUp: number;
  discarded: number;
  returned: number;
  /** Declared lost: booked, yet nobody knows where the units are. */
  lost: number;
  /** Counted away, less what was counted in addition. */
  countDifference: number;
}

/** How far the books of one lot balance. */
export interface MassBalance {
  /** Units whose whereabouts are known: on hand, quarantined, used up, discarded or returned. */
  accounted: number;
  /** Received less accounted: positive where units are missing, negative where too many. */
  unaccounted: number;
  /** The part of `unaccounted` that neither a declared loss nor a count explains. */
  unexplained: number;
  /** Accounted in percent of received; `null` where nothing was received. */
  accountedPercent: number | null;
  /** Nothing unaccounted and nothing unexplained. Less and more than 100 % are both a finding. */
  balanced: boolean;
}

/**
 * The mass balance of a lot: received = on hand + quarantined + used up + discarded + returned +
 * unaccounted. Units declared lost or counted away stay unaccounted: they explain a difference and
 * do not close it. All quantities are whole units. Source: mock-recall practice; 21 CFR 7.53(b)(4)
 * asks for the quantity accounted for.
 */
export function computeMassBalance(lot: LotQuantities): MassBalance {
  const accounted = lot.onHand + lot.quarantined + lot.usedUp + lot.discarded + lot.returned;
  const unaccounted = lot.received - accounted;
  const unexplained = unaccounted - lot.lost - lot.countDifference;
  return {
    accounted,
    unaccounted,
    unexplained,
    accountedPercent: lot.received === 0 ? null : (accounted / lot.received) * 100,
    balanced: unaccounted === 0 && unexplained === 0,
  };
}
