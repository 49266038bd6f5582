import { civilDateAt, readContainerCode } from "#domain";
import { identifierOf, readLabel, type LabelResult } from "#labels";
import type { Reading } from "#contracts/stock";
import type { ScannedFacts } from "#domain";
import type { Tx } from "../db/transaction.ts";

/** What a scan turned out to be: the practice's own code of a container, or a label. */
export type ScanRead =
  | { type: "code"; code: string; reading: Reading }
  | { type: "label"; reading: Reading };

/** Reads what the scanner sent, one symbol or the several of one label. */
export function readScan(tx: Tx, barcodes: readonly string[]): ScanRead {
  const own = barcodes.length === 1 ? readContainerCode(barcodes[0]!) : undefined;
  if (own?.ok) return { type: "code", code: own.code, reading: codeReading };
  const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  return { type: "label", reading: readingOf(readLabel(barcodes, { today })) };
}

const nothing = { identifier: null, lot: null, serial: null, useBy: null, warnings: [] };
const codeReading: Reading = { ...nothing, ok: true, scheme: "container", error: null };

function readingOf(result: LabelResult): Reading {
  if (!result.ok) {
    const { kind, at, length } = result.error;
    return { ...nothing, ok: false, scheme: null, error: { kind, at, length } };
  }
  const { fields, scheme, warnings } = result;
  const { expiry } = fields;
  return {
    ok: true,
    scheme,
    identifier: identifierOf(fields) ?? null,
    lot: fields.lot ?? null,
    serial: fields.serial ?? null,
    // A use-by hour or minute is kept as its day: the day before is always safe.
    useBy: expiry
      ? { date: expiry.date, precision: expiry.precision === "month" ? "month" : "day" }
      : null,
    warnings: warnings.map((warning) => (typeof warning === "string" ? warning : warning.kind)),
    error: null,
  };
}

export const scannedFacts = (reading: Reading): ScannedFacts => ({
  identifier: reading.identifier?.value ?? null,
  lot: reading.lot,
  serial: reading.serial,
  useBy: reading.useBy?.date ?? null,
});
