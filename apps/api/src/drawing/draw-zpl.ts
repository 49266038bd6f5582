import type { Raster } from "./draw-raster.ts";

/** From here on a dot is burnt: thin strokes stay whole where they fall between two dots. */
const burnFrom = 105;

/**
 * One label in ZPL II: the whole of it as a graphic field (`^GF`, ASCII hexadecimal, compressed as
 * the language's manual says under "alternative data compression"). So every printer burns the very
 * dots that the preview shows, whatever fonts it has, and no text ever reaches its interpreter.
 */
export function drawZpl({ width, height, ink }: Raster, copies: number): string {
  const rowBytes = Math.ceil(width / 8);
  const total = rowBytes * height;
  let data = "";
  let last = "";
  for (let y = 0; y < height; y += 1) {
    const row = hexOfRow(ink.subarray(y * width, (y + 1) * width), rowBytes);
    data += row === last ? ":" : compress(row);
    last = row;
  }
  const start = `^XA^PW${width}^LL${height}^LH0,0`;
  return `${start}^FO0,0^GFA,${total},${total},${rowBytes},${data}^FS^PQ${copies},0,0,N^XZ\n`;
}

function hexOfRow(dots: Uint8Array, rowBytes: number): string {
  const bytes = Buffer.alloc(rowBytes);
  dots.forEach((each, x) => {
    if (each >= burnFrom) bytes[x >> 3]! |= 0x80 >> (x & 7);
  });
  return bytes.toString("hex").toUpperCase();
}

/** `,` fills a row with zeros to its end, `!` with ones. */
function compress(row: string): string {
  const body = row.replace(/0+$/, "");
  if (body.length < row.length) return `${compressRuns(body)},`;
  const open = row.replace(/F+$/, "");
  return open.length < row.length ? `${compressRuns(open)}!` : compressRuns(row);
}

const compressRuns = (text: string): string =>
  text.replace(/(.)\1{2,}/g, (run, digit: string) => `${countOf(run.length)}${digit}`);

/** `g` to `z` stand for 20 to 400, `G` to `Y` for 1 to 19. */
function countOf(length: number): string {
  if (length > 400) return `z${countOf(length - 400)}`;
  const twenties = Math.floor(length / 20);
  const ones = length % 20;
  const letter = (base: string, index: number) =>
    index === 0 ? "" : String.fromCharCode(base.charCodeAt(0) + index - 1);
  return letter("g", twenties) + letter("G", ones);
}
