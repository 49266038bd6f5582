/** Reads printed labels back: renders a PDF to pixels and asks two decoders for the symbol. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { PDFiumLibrary, type PDFiumPage } from "@hyzyla/pdfium";
import {
  BarcodeFormat,
  BinaryBitmap,
  DecodeHintType,
  HybridBinarizer,
  MultiFormatReader,
  RGBLuminanceSource,
} from "@zxing/library";
import { PNG } from "pngjs";
import { prepareZXingModule, readBarcodes, type ReadInputBarcodeFormat } from "zxing-wasm/reader";

/** Grey levels row by row; 255 is paper. */
export interface Picture {
  width: number;
  height: number;
  grey: Uint8ClampedArray;
}

export interface PrintedPage {
  widthMm: number;
  heightMm: number;
  text: string;
  picture: Picture;
}

/** Every page of a PDF as a printer with so many dots to the inch would see it. */
export async function renderPdf(bytes: Uint8Array, dotsPerInch: number): Promise<PrintedPage[]> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(bytes);
  try {
    const pages: PrintedPage[] = [];
    for (const page of document.pages()) pages.push(await renderPage(page, dotsPerInch));
    return pages;
  } finally {
    document.destroy();
    library.destroy();
  }
}

/** The text of all pages of a PDF, its lines as one. */
export async function readPdfText(bytes: Uint8Array): Promise<string> {
  const pages = await renderPdf(bytes, 40);
  return pages.map(({ text }) => text.replace(/\s+/g, " ")).join(" ");
}

async function renderPage(page: PDFiumPage, dotsPerInch: number): Promise<PrintedPage> {
  const { originalWidth, originalHeight } = page.getOriginalSize();
  // Rendering closes the page.
  const text = page.getText();
  const [wide, high] = [originalWidth, originalHeight].map((each) =>
    Math.round((each * dotsPerInch) / 72),
  );
  const { width, height, data } = await page.render({
    width: wide!,
    height: high!,
    render: "bitmap",
  });
  return {
    widthMm: (originalWidth * 25.4) / 72,
    heightMm: (originalHeight * 25.4) / 72,
    text,
    picture: greyOf(width, height, data),
  };
}

function greyOf(width: number, height: number, rgba: Uint8Array): Picture {
  const grey = new Uint8ClampedArray(width * height);
  for (let at = 0; at < grey.length; at += 1) {
    grey[at] = (rgba[4 * at]! + rgba[4 * at + 1]! + rgba[4 * at + 2]!) / 3;
  }
  return { width, height, grey };
}

export function pictureOfPng(bytes: Uint8Array): Picture {
  const { width, height, data } = PNG.sync.read(Buffer.from(bytes));
  return greyOf(width, height, data);
}

/** A part of a picture, in its own dots. */
export function cut(
  { width, grey }: Picture,
  box: { x: number; y: number; width: number; height: number },
): Picture {
  const part = new Uint8ClampedArray(box.width * box.height);
  for (let y = 0; y < box.height; y += 1) {
    const from = (box.y + y) * width + box.x;
    part.set(grey.subarray(from, from + box.width), y * box.width);
  }
  return { width: box.width, height: box.height, grey: part };
}

let prepared: Promise<void> | undefined;
const prepare = async (): Promise<void> => {
  const path = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  const wasmBinary = new Uint8Array(await readFile(path)).buffer;
  prepareZXingModule({ overrides: { wasmBinary } });
};

// Code39 would convert pairs of characters to full ASCII and ruin HIBC.
const formats: ReadInputBarcodeFormat[] = [
  "DataMatrix",
  "Code128",
  "QRCode",
  "EAN13",
  "EAN8",
  "ITF14",
  "Code39Std",
];

/** What zxing-wasm reads: symbology identifier and text, as a scanner sends them. */
export async function readWithWasm({ width, height, grey }: Picture): Promise<string[]> {
  await (prepared ??= prepare());
  const data = new Uint8ClampedArray(4 * grey.length).fill(255);
  grey.forEach((level, at) => data.fill(level, 4 * at, 4 * at + 3));
  const found = await readBarcodes(
    { data, width, height, colorSpace: "srgb" },
    // The default mode gives brackets in place of separators.
    { formats, textMode: "Plain" },
  );
  return found.map((each) => each.symbologyIdentifier + each.text);
}

/** What @zxing/library reads: without identifier, FNC1 in front of a Data Matrix as a separator. */
export function readWithLibrary(
  { width, height, grey }: Picture,
  format = BarcodeFormat.DATA_MATRIX,
): string {
  const reader = new MultiFormatReader();
  // Without ASSUME_GS1 the separators of GS1-128 vanish; decode() would forget the hints.
  reader.setHints(
    new Map<DecodeHintType, unknown>([
      [DecodeHintType.TRY_HARDER, true],
      [DecodeHintType.ASSUME_GS1, true],
      [DecodeHintType.POSSIBLE_FORMATS, [format]],
    ]),
  );
  const source = new RGBLuminanceSource(grey, width, height);
  return reader.decodeWithState(new BinaryBitmap(new HybridBinarizer(source))).getText();
}
