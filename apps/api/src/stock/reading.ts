import { civilDateAt, readOwnCode, type OwnCode, type ScannedFacts } from "#domain";
import { identifierOf, readLabel, type LabelDate, type LabelResult } from "#labels";
import type { Reading } from "#contracts/stock";
import type { Tx } from "../db/transaction.ts";

/** What a scan turned out to be: one of the practice's own codes, or a label. */
export type ScanRead =
  | (OwnCode & { type: "code"; reading: Reading })
  | { type: "label"; reading: Reading };

/** What the scanner sent, one symbol or the several of one label, and its separators. */
export interface ScanSent {
  barcodes: readonly string[];
  gsTokens?: readonly string[] | undefined;
}

/** Reads what the scanner sent; the separators it stands for are told, never replaced. */
export function readScan(tx: Tx, { barcodes, gsTokens = [] }: ScanSent): ScanRead {
  const own = barcodes.length === 1 ? readOwnCode(barcodes[0]!) : undefined;
  if (own) return { type: "code", ...own, reading: { ...codeReading, scheme: own.kind } };
  const today = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  return { type: "label", reading: readingOf(readLabel(barcodes, { today, gsTokens })) };
}

const nothing = { identifier: null, lot: null, serial: null, useBy: null, warnings: [] };
const codeReading = { ...nothing, ok: true, error: null };

function readingOf(result: LabelResult): Reading {
  if (!result.ok) {
    const { kind, at, length, detail } = result.error;
    const error = { kind, at, length, ...(detail === undefined ? {} : { detail }) };
    return { ...nothing, ok: false, scheme: null, error };
  }
  const { fields, scheme, warnings } = result;
  return {
    ok: true,
    scheme,
    identifier: identifierOf(fields) ?? null,
    lot: fields.lot ?? null,
    serial: fields.serial ?? null,
    useBy: useByOfLabel(fields.expiry),
    warnings: warnings.map((warning) => (typeof warning === "string" ? warning : warning.kind)),
    error: null,
  };
}

/** A use-by hour or minute is kept as its day: the day before is always safe. */
export function useByOfLabel(expiry: LabelDate | undefined): Reading["useBy"] {
  if (expiry === undefined) return null;
  return { date: expiry.date, precision: expiry.precision === "month" ? "month" : "day" };
}

export const scannedFacts = (reading: Reading): ScannedFacts => ({
  identifier: reading.identifier?.value ?? null,
  lot: reading.lot,
  serial: reading.serial,
  useBy: reading.useBy?.date ?? null,
});
