import type { DeviceIdentifier } from "#labels";
import type { ScanTexts } from "../scanner/scan.ts";
import { useTexts } from "../texts/Texts.tsx";
import { labelsOf, usePackReading } from "./usePackReading.ts";

export interface LabelTold {
  /** The product as the catalogue calls it; `null` where it does not know it. */
  productId: string | null;
  name: string;
  lot: string | null;
  useBy: string | null;
  identifier: DeviceIdentifier | null;
}

/** Reads a pack's labels on this device, with the product's name as the catalogue knows it. */
export function useNameOf(): (texts: PackTexts) => LabelTold {
  const t = useTexts();
  const read = usePackReading();
  return (texts) => {
    const { product, items } = read(labelsOf(texts));
    const { levels, fields } = items[0] ?? { levels: [], fields: {} };
    const identifier = levels[0]?.identifier ?? null;
    return {
      productId: product?.id ?? null,
      name: product?.name ?? identifier?.value ?? t.receive.refused.unknownProduct,
      lot: fields.lot ?? null,
      useBy: fields.expiry?.date ?? null,
      identifier,
    };
  };
}

type PackTexts = ScanTexts & { packLabels?: string[][] | undefined };
