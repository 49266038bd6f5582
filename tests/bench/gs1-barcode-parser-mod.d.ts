declare module "gs1-barcode-parser-mod" {
  /** Throws a text for what it refuses. */
  export function parseBarcode(barcode: string): { parsedCodeItems: { ai: string; raw: string }[] };
}
