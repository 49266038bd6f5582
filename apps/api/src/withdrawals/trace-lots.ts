import { computeMassBalance } from "#domain";
import type { TracedLot } from "#contracts/withdrawals";
import type { Tx } from "../db/transaction.ts";
import { containerView, useByOf } from "../stock/container-row.ts";
import * as store from "./trace.store.ts";

/** Follows lots forward: here and where, planned, in which teeth, and whether the books balance. */
export async function traceLots(tx: Tx, lots: readonly store.LotRow[]): Promise<TracedLot[]> {
  if (lots.length === 0) return [];
  const ids = lots.map((lot) => lot.lot_id);
  const products = [...new Set(lots.map((lot) => lot.product_id))];
  const [balances, containers, planned, teeth, unscanned] = await Promise.all([
    store.listBalancesOfLots(tx, ids),
    store.listContainersHere(tx, ids),
    store.listPlanned(tx, ids),
    store.listTeeth(tx, ids),
    store.listUnscanned(tx, ids, products),
  ]);
  return lots.map((lot) => {
    const own = <Row extends { lot_id: string }>(rows: readonly Row[]) =>
      rows.filter((row) => row.lot_id === lot.lot_id);
    const certain = own(teeth).map((row) => ({ ...row, certainty: "certain" as const }));
    const guessed = own(unscanned).map((row) => ({
      ...row,
      code: null,
      certainty: row.candidates === 1 ? ("inferred" as const) : ("possible" as const),
    }));
    const all = [...certain, ...guessed];
    return {
      lotId: lot.lot_id,
      lot: lot.lot,
      useBy: useByOf(lot),
      product: { id: lot.product_id, name: lot.product_name, kind: lot.product_kind },
      identifiers: lot.identifiers,
      withdrawn: lot.withdrawn,
      here: own(balances)
        .filter(({ kind }) => isShelf(kind))
        .map((row) => ({
          location: { id: row.location_id, name: row.location_name, kind: row.kind },
          quantity: row.quantity,
          containers: own(containers)
            .filter((container) => container.location_id === row.location_id)
            .map(containerView),
        })),
      planned: own(planned).map((row) => ({
        trayId: row.tray_id,
        chartNumber: row.chart_number,
        tooth: row.tooth,
        appointmentAt: row.appointment_at.toISOString(),
        state: row.state,
        containerCode: row.code,
      })),
      teeth: all.map((row) => ({
        certainty: row.certainty,
        chartNumber: row.chart_number,
        tooth: row.tooth,
        recordId: row.record_id,
        recordState: row.record_state,
        visit: row.visit,
        stepKey: row.step_key,
        containerCode: row.code,
        usedAt: row.used_at.toISOString(),
      })),
      patients: new Set(all.map((row) => row.patient_id)).size,
      balance: balanceOf(own(balances)),
    };
  });
}

const isShelf = (kind: string): boolean =>
  ["store", "refrigerator", "operatory", "quarantine"].includes(kind);

function balanceOf(rows: readonly store.BalanceRow[]): TracedLot["balance"] {
  const at = (...kinds: string[]) =>
    rows.filter(({ kind }) => kinds.includes(kind)).reduce((sum, row) => sum + row.quantity, 0);
  const quantities = {
    // What came in is missing at the supplier.
    received: -at("supplier") || 0,
    onHand: at("store", "refrigerator", "operatory"),
    quarantined: at("quarantine"),
    usedUp: at("used"),
    discarded: at("discarded"),
    returned: at("returned"),
    lost: at("lost"),
    countDifference: at("count-difference"),
  };
  const { unaccounted, balanced } = computeMassBalance(quantities);
  return { ...quantities, unaccounted, balanced };
}
