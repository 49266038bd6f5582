import type { Drawing, DrawnSymbol, DrawnText } from "#domain";
import type { Contour, Typeface } from "./typeface.ts";

/** Dots row by row; 0 is paper and 255 ink. */
export interface Raster {
  width: number;
  height: number;
  ink: Uint8Array;
}

/** A printer's dot in micrometres. A head of "203 dpi" has eight dots to the millimetre. */
export const dotUmOf = (dotsPerInch: "203" | "300" | "600"): number =>
  dotsPerInch === "203" ? 125 : 25_400 / Number(dotsPerInch);

/** The drawing as dots: symbols and rules on whole dots, letters by how much of one they cover. */
export function drawRaster(drawing: Drawing, dotUm: number, typeface: Typeface): Raster {
  const width = Math.round(drawing.widthUm / dotUm);
  const height = Math.round(drawing.heightUm / dotUm);
  const raster: Raster = { width, height, ink: new Uint8Array(width * height) };
  for (const text of drawing.texts) {
    for (const letter of outlinesOf(text, dotUm, typeface)) fillContours(raster, letter);
  }
  for (const { xUm, yUm, widthUm, heightUm } of drawing.rules) {
    const [x, y] = [Math.round(xUm / dotUm), Math.round(yUm / dotUm)];
    const wide = Math.max(1, Math.round(widthUm / dotUm));
    const high = Math.max(1, Math.round(heightUm / dotUm));
    fillDots(raster, { x, y, wide, high });
  }
  for (const symbol of drawing.symbols) fillSymbol(raster, symbol, dotUm);
  return raster;
}

function fillDots(raster: Raster, box: { x: number; y: number; wide: number; high: number }): void {
  const from = Math.max(0, box.x);
  const to = Math.min(raster.width, box.x + box.wide);
  for (let y = Math.max(0, box.y); y < Math.min(raster.height, box.y + box.high); y += 1) {
    raster.ink.fill(255, y * raster.width + from, y * raster.width + Math.max(from, to));
  }
}

/** Every module the same whole number of dots, wherever the corner falls. */
function fillSymbol(raster: Raster, symbol: DrawnSymbol, dotUm: number): void {
  const side = Math.max(1, Math.round(symbol.moduleUm / dotUm));
  const [x, y] = [Math.round(symbol.xUm / dotUm), Math.round(symbol.yUm / dotUm)];
  symbol.rows.forEach((row, down) =>
    row.forEach((dark, right) => {
      if (!dark) return;
      fillDots(raster, { x: x + right * side, y: y + down * side, wide: side, high: side });
    }),
  );
}

/** The outlines of a text in dots. */
function outlinesOf(text: DrawnText, dotUm: number, typeface: Typeface): Contour[][] {
  const [x, y, em] = [text.xUm / dotUm, text.baselineUm / dotUm, text.emUm / dotUm];
  const letters = typeface.outlinesOf(text.text, text.weight);
  return letters.map((contours) =>
    contours.map((contour) => contour.map(([px, py]) => [x + em * px, y - em * py] as const)),
  );
}

const linesPerDot = 4;

interface Edge {
  top: number;
  bottom: number;
  x: number;
  slope: number;
  winding: 1 | -1;
}

/** Fills by the non-zero rule: exact from left to right, by some lines a dot from top to bottom. */
function fillContours(raster: Raster, contours: readonly Contour[]): void {
  const edges = edgesOf(contours).sort((a, b) => a.top - b.top);
  if (edges.length === 0) return;
  const first = Math.max(0, Math.floor(edges[0]!.top));
  const last = Math.min(raster.height, Math.ceil(Math.max(...edges.map(({ bottom }) => bottom))));
  const sides = edges.flatMap(({ x, top, bottom, slope }) => [x, x + (bottom - top) * slope]);
  const left = Math.max(0, Math.floor(Math.min(...sides)));
  const right = Math.min(raster.width, Math.ceil(Math.max(...sides)));
  if (right <= left) return;
  const cover = new Float64Array(right - left);
  let next = 0;
  let active: Edge[] = [];
  for (let row = first; row < last; row += 1) {
    cover.fill(0);
    for (let line = 0; line < linesPerDot; line += 1) {
      const y = row + (line + 0.5) / linesPerDot;
      while (next < edges.length && edges[next]!.top <= y) active.push(edges[next++]!);
      if (active.some(({ bottom }) => bottom <= y)) {
        active = active.filter(({ bottom }) => bottom > y);
      }
      addSpans(cover, active, { y, left });
    }
    for (let x = left; x < right; x += 1) {
      const ink = Math.round((255 * cover[x - left]!) / linesPerDot);
      const at = row * raster.width + x;
      if (ink > raster.ink[at]!) raster.ink[at] = Math.min(255, ink);
    }
  }
}

function edgesOf(contours: readonly Contour[]): Edge[] {
  return contours.flatMap((contour) =>
    contour.flatMap(([ax, ay], index): Edge[] => {
      const [bx, by] = contour[(index + 1) % contour.length]!;
      if (ay === by) return [];
      const slope = (bx - ax) / (by - ay);
      const down = ay < by;
      const [top, x] = down ? [ay, ax] : [by, bx];
      return [{ top, bottom: down ? by : ay, x, slope, winding: down ? 1 : -1 }];
    }),
  );
}

function addSpans(
  cover: Float64Array,
  active: readonly Edge[],
  line: { y: number; left: number },
): void {
  const crossings = active
    .map(({ x, top, slope, winding }) => ({ x: x + (line.y - top) * slope - line.left, winding }))
    .sort((a, b) => a.x - b.x);
  let winding = 0;
  crossings.forEach((crossing, index) => {
    if (winding !== 0) addSpan(cover, crossings[index - 1]!.x, crossing.x);
    winding += crossing.winding;
  });
}

function addSpan(cover: Float64Array, from: number, to: number): void {
  const [left, right] = [Math.max(0, from), Math.min(cover.length, to)];
  for (let x = Math.floor(left); x < right; x += 1) {
    cover[x]! += Math.min(x + 1, right) - Math.max(x, left);
  }
}
