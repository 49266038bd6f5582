import { crc32 } from "node:zlib";
import type { Raster } from "./draw-raster.ts";

/** A grey PNG, with its resolution said so that it prints at its size. */
export async function drawPng(raster: Raster, dotUm: number): Promise<Uint8Array> {
  const { PNG } = await import("pngjs");
  const { width, height, ink } = raster;
  const image = new PNG({ width, height });
  ink.forEach((each, at) => image.data.fill(255 - each, 4 * at, 4 * at + 3));
  for (let at = 3; at < image.data.length; at += 4) image.data[at] = 255;
  return withResolution(PNG.sync.write(image, { colorType: 0 }), Math.round(1_000_000 / dotUm));
}

/** Signature and header come first (PNG 5.2, 11.2.1); what follows them may be the resolution. */
const headerEnd = 8 + 25;

/** With the chunk pHYs (PNG 11.3.4.3): dots a metre in both directions. */
function withResolution(png: Buffer, dotsPerMetre: number): Uint8Array {
  const chunk = Buffer.alloc(21);
  chunk.writeUInt32BE(9, 0);
  chunk.write("pHYs", 4, "latin1");
  chunk.writeUInt32BE(dotsPerMetre, 8);
  chunk.writeUInt32BE(dotsPerMetre, 12);
  chunk.writeUInt8(1, 16);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 17)), 17);
  return Buffer.concat([png.subarray(0, headerEnd), chunk, png.subarray(headerEnd)]);
}
