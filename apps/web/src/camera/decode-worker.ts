/** Reads pictures off the page's own thread: frames of the camera and photos. */
import {
  greyOf,
  LiveReading,
  makeScriptReader,
  makeWasmReader,
  readPicture,
  type Picture,
  type SymbolReader,
} from "#decode";
import wasmAddress from "zxing-wasm/reader/zxing_reader.wasm?url";
import type { Asked, Pixels, Told } from "./decoder.ts";

/** WebAssembly where it runs and its file comes; the slower script otherwise. */
async function makeReader(): Promise<SymbolReader> {
  if (typeof WebAssembly === "undefined") return makeScriptReader();
  try {
    const answer = await fetch(wasmAddress);
    if (!answer.ok) throw new Error(`the decoder was not served: ${answer.status}`);
    return await makeWasmReader(await answer.arrayBuffer());
  } catch {
    return makeScriptReader();
  }
}

const tell = (told: Told): void => postMessage(told);
const reader = makeReader();
const live = reader.then((one) => new LiveReading(one));
reader.then(
  ({ name }) => tell({ kind: "ready", reader: name === "script" ? "script" : "wasm" }),
  () => undefined,
);

let canvas: OffscreenCanvas | undefined;

function pictureOf(pixels: Pixels): Picture {
  const { width, height } = pixels;
  if (!(pixels instanceof ImageBitmap)) return greyOf(pixels.rgba, width, height);
  canvas ??= new OffscreenCanvas(width, height);
  if (canvas.width !== width || canvas.height !== height) {
    Object.assign(canvas, { width, height });
  }
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (context === null) throw new Error("no canvas");
  context.drawImage(pixels, 0, 0);
  pixels.close();
  return greyOf(context.getImageData(0, 0, width, height).data, width, height);
}

async function look({ kind, pixels, atMs }: Asked) {
  const picture = pictureOf(pixels);
  return kind === "frame" ? (await live).next(picture, atMs) : readPicture(await reader, picture);
}

addEventListener("message", ({ data }: MessageEvent<Asked>) => {
  const { id } = data;
  look(data).then(
    (reads) => tell({ kind: "looked", id, reads }),
    () => tell({ kind: "looked", id, reads: null }),
  );
});
