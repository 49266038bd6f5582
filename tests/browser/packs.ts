/** What a scanner sends for a pack of the trade: a GS1 DataMatrix (GS1 General Specifications). */
import { addDays } from "#domain";

export interface Pack {
  gtin: string;
  lot: string;
  /** Days from today, less than nothing for a pack that is past its use-by date. */
  useByDays: number;
  serial?: string;
}

/** As printed by the fictional makers; the prefix 952 is GS1's own for demonstrations. */
export const gtins = {
  duneFlow: "09520000001070",
  /** Of no product in the demonstration's catalogue. */
  unknown: "09520000001230",
} as const;

/** The symbology identifier, then AI 01, 17, 10 and, after the separator of the lot, 21. */
export function makePack({ gtin, lot, useByDays, serial }: Pack): string {
  const useBy = addDays(new Date().toISOString().slice(0, 10), useByDays);
  const date = useBy.slice(2).replaceAll("-", "");
  const end = serial === undefined ? "" : `\u001d21${serial}`;
  return `]d201${gtin}17${date}10${lot}${end}`;
}
