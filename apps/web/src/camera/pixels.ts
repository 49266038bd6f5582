/** Takes the pixels of a video's newest frame and of a photo. */
import type { Pixels } from "./decoder.ts";

interface Part {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A worker draws a bitmap where it has a canvas; elsewhere the page does it. */
const workerDraws = typeof OffscreenCanvas !== "undefined";

/** A part of what a video or a picture shows now. */
export async function takePixels(
  source: HTMLVideoElement | ImageBitmap,
  { x, y, width, height }: Part,
): Promise<Pixels> {
  if (workerDraws) return createImageBitmap(source, x, y, width, height);
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const context = canvas.getContext("2d", { willReadFrequently: true });
  if (context === null) throw new Error("no canvas");
  context.drawImage(source, x, y, width, height, 0, 0, width, height);
  return { rgba: context.getImageData(0, 0, width, height).data, width, height };
}

/** More pixels tell nothing more of a label that fills a photo, and take seconds. */
const longestSide = 3_200;

/** The pixels of a photo, upright; it rejects where the file is no picture the browser knows. */
export async function takePhoto(file: Blob): Promise<Pixels> {
  const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, longestSide / Math.max(whole.width, whole.height));
  if (scale === 1 && workerDraws) return whole;
  const width = Math.round(whole.width * scale);
  const height = Math.round(whole.height * scale);
  const options = { resizeWidth: width, resizeHeight: height, resizeQuality: "high" } as const;
  const small = scale === 1 ? whole : await createImageBitmap(whole, options);
  return takePixels(small, { x: 0, y: 0, width, height });
}
