import { civilDateAt, daysBetween, listSurfaceNeeds } from "#domain";
import type { SealOfTooth, WaitingSeal } from "#contracts/waiting";
import type { Tx } from "../db/transaction.ts";
import type { SurfaceRow, ToothSealRow, WaitingRow } from "./waiting.store.ts";

/** What a surface needs on a day, from what was recorded of it. */
function surfaceView(tx: Tx, row: SurfaceRow, on: string) {
  const sealedOn = civilDateAt(new Date(row.sealed_at).toISOString(), tx.actor.timeZone);
  const { cement, provisional, coated, separated, contaminated } = row;
  const surface = { sealedOn, coated, provisional, separated, contaminated };
  return {
    sealId: row.id,
    tooth: row.tooth,
    sealedOn,
    days: daysBetween(sealedOn, on),
    provisional,
    cement: cement && { productName: cement.name, lotId: cement.lot_id, lot: cement.lot },
    needs: [...listSurfaceNeeds({ ...surface, provisionalCement: cement }, on)],
  };
}

export function waitingView(
  tx: Tx,
  row: WaitingRow,
  { on, limitDays }: { on: string; limitDays: number },
): WaitingSeal {
  const { visit, off, bonded } = row;
  const surface = surfaceView(tx, row, on);
  return {
    ...surface,
    chartNumber: row.chart_number,
    overdue: !bonded && off === null && surface.days > limitDays,
    restoration: row.restoration,
    plannedOn: row.bonding_on,
    visit: visit && {
      trayId: visit.tray_id,
      appointmentAt: new Date(visit.appointment_at).toISOString(),
      state: visit.state,
    },
    bonded,
    off: off && { ...off, at: new Date(off.at).toISOString() },
  };
}

export function toothSealView(tx: Tx, row: ToothSealRow, on: string): SealOfTooth {
  const { bonded, off } = row;
  return { ...surfaceView(tx, row, on), bonded, off, waits: !bonded && !off };
}
