import type * as ZxingLibrary from "@zxing/library";
import type { BarcodeFormat, BinaryBitmap, DecodeHintType, Result } from "@zxing/library";
import type { Picture } from "./picture.ts";
import type { Effort, RawRead, SymbolFormat, SymbolReader } from "./reader.ts";
import { readIdentified } from "./script-identifier.ts";

type Library = typeof ZxingLibrary;

/**
 * The decoder for where WebAssembly does not run: `@zxing/library`, loaded when it is first used.
 * It reads fewer pictures, one symbol in each, and needs longer.
 */
export function makeScriptReader(): SymbolReader {
  let library: Promise<Library> | undefined;
  return {
    name: "script",
    read: async (picture, effort) => read(await (library ??= load()), picture, effort),
  };
}

/** Node gives what is CommonJS as the default; bundlers give the names. */
async function load(): Promise<Library> {
  const loaded: Library & { default?: Library } = await import("@zxing/library");
  return loaded.default ?? loaded;
}

function read(library: Library, picture: Picture, effort: Effort): RawRead[] {
  const { grey, width, height } = picture;
  const { BinaryBitmap, HybridBinarizer, RGBLuminanceSource } = library;
  const source = new RGBLuminanceSource(grey, width, height);
  return readersOf(library, effort).flatMap((decode) => {
    const result = resultOf(() => decode(new BinaryBitmap(new HybridBinarizer(source))));
    const read = result && identify(library, result);
    return read ? [read] : [];
  });
}

type Decode = (bitmap: BinaryBitmap) => Result;

/** Each by itself: the reader of several formats writes what it does not find to the console. */
function readersOf(library: Library, { formats, harder }: Effort): Decode[] {
  const { BarcodeFormat, DecodeHintType } = library;
  const { CODE_128, CODE_39, EAN_13 } = BarcodeFormat;
  const bars = { Code128: CODE_128, Code39: CODE_39, EAN13: EAN_13 };
  const wanted = (Object.keys(bars) as (keyof typeof bars)[])
    .filter((format) => formats.includes(format))
    .map((format) => bars[format]);
  // Without ASSUME_GS1 the separators of GS1-128 vanish.
  const hints = new Map<DecodeHintType, unknown>([
    [DecodeHintType.ASSUME_GS1, true],
    [DecodeHintType.POSSIBLE_FORMATS, wanted],
  ]);
  if (harder) hints.set(DecodeHintType.TRY_HARDER, true);
  const readers: Decode[] = [];
  if (formats.includes("DataMatrix")) {
    readers.push((bitmap) => new library.DataMatrixReader().decode(bitmap, hints));
  }
  if (formats.includes("QRCode")) {
    readers.push((bitmap) => new library.QRCodeReader().decode(bitmap, hints));
  }
  if (wanted.length > 0) {
    const reader = new library.MultiFormatOneDReader(hints);
    readers.push((bitmap) => reader.decode(bitmap, hints));
  }
  return readers;
}

/** It throws where it finds nothing, and other errors where noise looks like a symbol. */
function resultOf(decode: () => Result): Result | undefined {
  try {
    return decode();
  } catch {
    return undefined;
  }
}

function identify({ BarcodeFormat }: Library, result: Result): RawRead | undefined {
  const formats = new Map<BarcodeFormat, SymbolFormat>([
    [BarcodeFormat.DATA_MATRIX, "DataMatrix"],
    [BarcodeFormat.QR_CODE, "QRCode"],
    [BarcodeFormat.CODE_128, "Code128"],
    [BarcodeFormat.CODE_39, "Code39"],
    [BarcodeFormat.EAN_13, "EAN13"],
  ]);
  const format = formats.get(result.getBarcodeFormat());
  const text = format && readIdentified(format, result.getText(), result.getRawBytes());
  if (format === undefined || text === undefined) return undefined;
  const corners = result.getResultPoints().map((point) => ({ x: point.getX(), y: point.getY() }));
  return { text, format, corners };
}
