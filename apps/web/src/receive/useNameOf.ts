import { identifierOf } from "#labels";
import { useRead } from "../api/queries.ts";
import { readScanned } from "../scanner/scan.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";

export interface LabelTold {
  /** The product as the catalogue calls it; `null` where it does not know it. */
  productId: string | null;
  name: string;
  lot: string | null;
  useBy: string | null;
  identifier: { scheme: "gs1-gtin" | "hibc" | "ppn"; value: string } | null;
}

/** Reads a pack's label on this device, with the product's name as the catalogue knows it. */
export function useNameOf(): (barcodes: readonly string[]) => LabelTold {
  const t = useTexts();
  const { today } = useFormats();
  const { data } = useRead("listProducts", {}, { staleMs: 60_000 });
  return (barcodes) => {
    const reading = readScanned(barcodes, today());
    const fields = reading.kind === "label" ? reading.label.fields : undefined;
    const identifier = (fields && identifierOf(fields)) ?? null;
    const product = data?.products.find(({ identifiers }) =>
      identifiers.some(
        ({ scheme, value }) => scheme === identifier?.scheme && value === identifier.value,
      ),
    );
    return {
      productId: product?.id ?? null,
      name: product?.name ?? identifier?.value ?? t.receive.refused.unknownProduct,
      lot: fields?.lot ?? null,
      useBy: fields?.expiry?.date ?? null,
      identifier,
    };
  };
}
