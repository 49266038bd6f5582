/** What a camera would see: labels that lie on a table, as a film and as a photo. */
import { createWriteStream } from "node:fs";
import { once } from "node:events";
import bwipjs from "bwip-js/node";
import { PNG } from "pngjs";

const width = 1280;
const height = 720;

export interface Label {
  /** In the words of bwip-js: the symbology, and the text with application identifiers. */
  bcid: "gs1datamatrix" | "datamatrix";
  text: string;
  /** The upper left corner of the symbol in the picture, in pixels. */
  left: number;
  top: number;
  pixelsPerModule: number;
}

/** The brightness of one frame, row after row; it trembles as a hand does. */
function drawFrame(labels: readonly Label[], frame: number): Buffer {
  const grey = Buffer.alloc(width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const at = y * width + x;
      grey[at] = 96 + ((x >> 5) + (y >> 5)) * 2 + noise(at + frame * 7919);
    }
  }
  const shiftX = Math.round(6 * Math.sin(frame / 3));
  const shiftY = Math.round(4 * Math.cos(frame / 4));
  for (const label of labels) {
    const moved = { ...label, left: label.left + shiftX, top: label.top + shiftY };
    drawLabel(grey, moved, frame);
  }
  return grey;
}

// In a test each use of a global is slow, and there are a million pixels.
const { floor, imul } = Math;

/** From -8 to 7, the same for the same place and frame. */
const noise = (seed: number): number => ((imul(seed ^ (seed >>> 13), 0x5bd1e995) >>> 15) & 15) - 8;

const quietModules = 4;

function drawLabel(grey: Buffer, label: Label, frame: number): void {
  const { bcid, text, left, top, pixelsPerModule } = label;
  const [drawn] = bwipjs.raw({ bcid, text, ...(bcid === "datamatrix" ? {} : { parse: true }) });
  if (drawn === undefined || !("pixs" in drawn)) throw new Error(`nothing drawn for ${text}`);
  const { pixs, pixx, pixy } = drawn;
  const isDark = (column: number, row: number) =>
    column >= 0 && column < pixx && row >= 0 && row < pixy && pixs[row * pixx + column] === 1;
  for (let y = 0; y < (pixy + 2 * quietModules) * pixelsPerModule; y += 1) {
    for (let x = 0; x < (pixx + 2 * quietModules) * pixelsPerModule; x += 1) {
      const column = floor(x / pixelsPerModule) - quietModules;
      const row = floor(y / pixelsPerModule) - quietModules;
      const at = (top + y) * width + left + x;
      grey[at] = (isDark(column, row) ? 40 : 215) + noise(at + frame * 104_729);
    }
  }
}

/**
 * Writes a film in the form that Chromium takes for a camera: YUV4MPEG2, 4:2:0, in grey. It goes
 * round: each scene stays for the same number of frames, at four a second.
 */
export async function writeFilm(
  file: string,
  scenes: readonly (readonly Label[])[],
  framesEach: number,
): Promise<void> {
  const out = createWriteStream(file);
  const colourless = Buffer.alloc((width * height) / 2, 128);
  out.write(`YUV4MPEG2 W${width} H${height} F4:1 Ip A1:1 C420jpeg\n`);
  for (const [index, labels] of scenes.entries()) {
    for (let frame = 0; frame < framesEach; frame += 1) {
      out.write("FRAME\n");
      out.write(drawFrame(labels, index * framesEach + frame));
      if (!out.write(colourless)) await once(out, "drain");
    }
  }
  out.end();
  await once(out, "close");
}

/** A photo of labels, as PNG. */
export function makePhoto(labels: readonly Label[]): Buffer {
  const grey = drawFrame(labels, 0);
  const png = new PNG({ width, height });
  const { data } = png;
  for (let at = 0; at < grey.length; at += 1) {
    const level = grey[at]!;
    data[at * 4] = level;
    data[at * 4 + 1] = level;
    data[at * 4 + 2] = level;
    data[at * 4 + 3] = 255;
  }
  return PNG.sync.write(png, { filterType: 0, deflateLevel: 1 });
}
