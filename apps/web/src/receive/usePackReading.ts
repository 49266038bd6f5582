import { readPack, type DeviceIdentifier, type PackReading } from "#labels";
import { useRead } from "../api/queries.ts";
import type { ScanTexts } from "../scanner/scan.ts";
import { useFormats } from "../texts/useFormats.ts";
import type { ReceiveBody } from "./attempts.ts";

export interface PackTold extends PackReading {
  /** The product as the catalogue calls it; `null` where it knows none of the labels. */
  product: { id: string; name: string } | null;
}

/** Reads the labels of a pack on this device, with the catalogue's word on what is one item. */
export function usePackReading(): (labels: readonly ScanTexts[]) => PackTold {
  const { today } = useFormats();
  const { data } = useRead("listProducts", {}, { staleMs: 60_000 });
  const productOf = ({ scheme, value }: DeviceIdentifier) =>
    data?.products.find(({ identifiers }) =>
      identifiers.some((one) => one.scheme === scheme && one.value === value),
    );
  return (labels) => {
    const reading = readPack(
      labels.map(({ barcodes }) => barcodes),
      {
        today: today(),
        gsTokens: tokensOf(labels),
        itemOf: (identifier) => productOf(identifier)?.id,
      },
    );
    const levels = reading.items.flatMap((item) => item.levels);
    const [product] = levels.flatMap(({ identifier }) => productOf(identifier) ?? []);
    return { ...reading, product: product ?? null };
  };
}

const tokensOf = (labels: readonly ScanTexts[]): string[] => [
  ...new Set(labels.flatMap(({ gsTokens = [] }) => gsTokens)),
];

/** The most labels of one pack that are compared. */
export const mostLabels = 5;

export type PackBody = Pick<ReceiveBody, "barcodes" | "packLabels" | "gsTokens">;

/** What is sent of the labels of a pack. */
export function packBodyOf(labels: readonly ScanTexts[]): PackBody {
  const [barcodes = [], ...packLabels] = labels.map((label) => label.barcodes);
  const gsTokens = tokensOf(labels);
  return { barcodes, packLabels, ...(gsTokens.length === 0 ? {} : { gsTokens }) };
}

/** The labels of a pack as they were sent. */
export const labelsOf = ({ barcodes, packLabels = [], gsTokens }: PackBody): ScanTexts[] =>
  [barcodes, ...packLabels].map((label) => ({ barcodes: label, gsTokens }));
