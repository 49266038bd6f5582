import { civilDateAt, computeLightState, type CheckSettings } from "#domain";
import type { LightReadingView, LightView } from "#contracts/lights";
import type { Tx } from "../db/transaction.ts";
import type { LightRow } from "./lights.store.ts";

/** A light with its tables and how it stands today. */
export function lightView(tx: Tx, row: LightRow, settings: CheckSettings): LightView {
  const { timeZone } = tx.actor;
  const dayOf = (at: string): string => civilDateAt(at, timeZone);
  const readings = row.readings.map((one) => ({
    ...one,
    readAt: new Date(one.readAt).toISOString(),
  }));
  const standing = readings.filter(({ replaced }) => !replaced);
  const tip = standing.filter(
    ({ mode, distanceTenthMm }) => mode === row.modes[0]?.name && distanceTenthMm === 0,
  );
  const state = computeLightState(
    tip.map((one) => ({
      readOn: dayOf(one.readAt),
      irradianceMwPerCm2: one.irradianceMwCm2,
    })),
    settings,
    dayOf(tx.at.toISOString()),
  );
  return {
    id: row.id,
    name: row.name,
    serial: row.serial,
    tipTenthMm: row.tip_tenth_mm,
    location:
      row.location_id === null ? null : { id: row.location_id, name: row.location_name ?? "" },
    retired: row.retired,
    ...state,
    modes: row.modes.map((mode) => ({ ...mode, table: tableOf(standing, mode.name) })),
    readings,
  };
}

/** At each distance the latest reading. */
function tableOf(readings: readonly LightReadingView[], mode: string) {
  const latest = new Map<number, LightReadingView>();
  for (const one of readings) if (one.mode === mode) latest.set(one.distanceTenthMm, one);
  return [...latest.values()]
    .sort((a, b) => a.distanceTenthMm - b.distanceTenthMm)
    .map(({ distanceTenthMm, irradianceMwCm2, readAt }) => ({
      distanceTenthMm,
      irradianceMwCm2,
      readAt,
    }));
}
