import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import jpeg from "jpeg-js";
import { PNG } from "pngjs";
import { greyOf, makeScriptReader, makeWasmReader, readPicture } from "#decode";
import type { Picture, SymbolReader } from "#decode";
import { readLabel } from "#labels";
import { answerOf, type LabelLineOptions } from "./label-lines.ts";

/** How many symbols were read, and in how many pictures there was none. */
export type LabelImageCounts = { read: number; empty: number };

/**
 * Reads the symbols of photographs and writes one line of JSON for each: the file, whether the
 * symbol was read twice alike, and what the label says, as for a line of text. A picture without a
 * symbol gets a line of its own.
 */
export async function readLabelImages(
  files: readonly string[],
  options: LabelLineOptions,
  write: (line: string) => void,
): Promise<LabelImageCounts> {
  const reader = await makeReader();
  const counts = { read: 0, empty: 0 };
  for (const file of files) {
    const symbols = await readPicture(reader, await readImage(file));
    counts.read += symbols.length;
    if (symbols.length === 0) {
      counts.empty += 1;
      write(JSON.stringify({ file, ok: false, error: { kind: "no_symbol" } }));
    }
    for (const { text, sure } of symbols) {
      write(JSON.stringify({ file, sure, ...answerOf(readLabel(text, options)) }));
    }
  }
  return counts;
}

async function makeReader(): Promise<SymbolReader> {
  const path = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  if (typeof WebAssembly === "undefined") return makeScriptReader();
  return makeWasmReader(new Uint8Array(await readFile(path)).buffer);
}

async function readImage(file: string): Promise<Picture> {
  const bytes = await readFile(file).catch(() => {
    throw refusal(`${file} cannot be read.`, "Give the path of a picture.");
  });
  try {
    const isPng = bytes.subarray(1, 4).toString("latin1") === "PNG";
    const image = isPng ? PNG.sync.read(bytes) : jpeg.decode(bytes, { useTArray: true });
    return greyOf(new Uint8ClampedArray(image.data), image.width, image.height);
  } catch {
    throw refusal(`${file} is not a whole PNG or JPEG picture.`, "Save it as one of the two.");
  }
}

/** This is a bundle of its own, where a class of errors would be another than the caller's. */
const refusal = (message: string, remedy: string): Error =>
  Object.assign(new Error(message), { remedy });
