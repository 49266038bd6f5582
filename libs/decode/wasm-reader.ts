import { prepareZXingModule, readBarcodes, type ReadInputBarcodeFormat } from "zxing-wasm/reader";
import type { Picture } from "./picture.ts";
import type { Effort, RawRead, SymbolFormat, SymbolReader } from "./reader.ts";

// Code39 would take pairs of characters for full ASCII and ruin HIBC.
const askedAs: Record<SymbolFormat, ReadInputBarcodeFormat> = {
  DataMatrix: "DataMatrix",
  QRCode: "QRCode",
  Code128: "Code128",
  Code39: "Code39Std",
  EAN13: "EAN13",
};

const answeredAs: Readonly<Record<string, SymbolFormat>> = {
  DataMatrix: "DataMatrix",
  QRCode: "QRCode",
  QRCodeModel2: "QRCode",
  Code128: "Code128",
  Code39: "Code39",
  Code39Std: "Code39",
  EAN13: "EAN13",
};

/**
 * The decoder that is used wherever WebAssembly runs. It is given the bytes of
 * `zxing-wasm/reader/zxing_reader.wasm`, because the package would otherwise fetch them from
 * somebody else's server. It rejects when they are not that module or WebAssembly is forbidden.
 *
 * The browser's own BarcodeDetector is not used even where there is one (Android and macOS; no
 * desktop Chromium elsewhere): it gives no symbology identifier and no codewords, so nothing proves
 * that an element string is one, and a lost FNC1 would melt a lot with what follows it.
 */
export async function makeWasmReader(wasmBinary: ArrayBuffer): Promise<SymbolReader> {
  await prepareZXingModule({ overrides: { wasmBinary }, fireImmediately: true });
  return { name: "wasm", read };
}

async function read(picture: Picture, effort: Effort): Promise<RawRead[]> {
  const found = await readBarcodes(greymapOf(picture), {
    formats: effort.formats.map((format) => askedAs[format]),
    // The default would put brackets in place of separators.
    textMode: "Plain",
    tryHarder: effort.harder,
    tryRotate: effort.rotated,
    tryInvert: effort.inverted,
    tryDownscale: effort.shrunk,
  });
  return found.flatMap(({ format, isValid, position, symbologyIdentifier, text }) => {
    const known = answeredAs[format];
    if (!isValid || known === undefined) return [];
    const { topLeft, topRight, bottomRight, bottomLeft } = position;
    const corners = [topLeft, topRight, bottomRight, bottomLeft];
    return [{ text: symbologyIdentifier + text, format: known, corners }];
  });
}

/** As a file in the portable grey map format: a quarter of the bytes that colours would take. */
function greymapOf({ grey, width, height }: Picture): Uint8Array {
  const head = new TextEncoder().encode(`P5 ${width} ${height} 255\n`);
  const file = new Uint8Array(head.length + grey.length);
  file.set(head);
  file.set(grey, head.length);
  return file;
}
