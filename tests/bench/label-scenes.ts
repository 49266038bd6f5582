/** What stands around a label in a camera's picture, and what looks like a symbol and is none. */
import type { Random } from "./random.ts";

// Looked up once: in a test's own context each look at a global is slow.
const { abs, ceil, floor, hypot, max, min } = Math;

export const frameWidth = 1280;
export const frameHeight = 720;

/** Brightness of each pixel, not yet rounded. */
export type Canvas = Float32Array;

/** A brightness at a place of its own plane; undefined where there is nothing. */
export type Sheet = (x: number, y: number) => number | undefined;

/** An uneven ground with boxes, discs, edges and print. */
export function drawClutter(random: Random): Canvas {
  const canvas: Canvas = new Float32Array(frameWidth * frameHeight);
  const [base, slopeX, slopeY] = [
    random.between(70, 190),
    random.normal() * 30,
    random.normal() * 30,
  ];
  for (let y = 0, at = 0; y < frameHeight; y += 1) {
    for (let x = 0; x < frameWidth; x += 1, at += 1) {
      canvas[at] = base + (slopeX * x) / frameWidth + (slopeY * y) / frameHeight;
    }
  }
  for (let count = random.whole(8, 20); count > 0; count -= 1) paintBox(canvas, random);
  for (let count = random.whole(1, 4); count > 0; count -= 1) {
    paintSheet(canvas, printedText(random), placeAtRandom(random));
  }
  return canvas;
}

function paintBox(canvas: Canvas, random: Random): void {
  const [width, height] = [random.between(20, 420), random.between(20, 300)];
  const level = random.between(20, 240);
  const isDisc = random.next() < 0.3;
  const box: Sheet = (x, y) => {
    if (abs(x) > width / 2 || abs(y) > height / 2) return undefined;
    const isOutside = isDisc && (2 * x) ** 2 / width ** 2 + (2 * y) ** 2 / height ** 2 > 1;
    return isOutside ? undefined : level;
  };
  paintSheet(canvas, { sheet: box, width, height }, placeAtRandom(random));
}

/** A sheet with its size, centred on its own origin. */
export interface Sized {
  sheet: Sheet;
  width: number;
  height: number;
}

interface Place {
  x: number;
  y: number;
  turn: number;
}

const placeAtRandom = (random: Random): Place => ({
  x: random.between(0, frameWidth),
  y: random.between(0, frameHeight),
  turn: random.between(0, 2 * Math.PI),
});

/** Paints without smoothing; the picture is blurred a little afterwards, as by any lens. */
export function paintSheet(canvas: Canvas, { sheet, width, height }: Sized, place: Place): void {
  const cos = Math.cos(place.turn);
  const sin = Math.sin(place.turn);
  const reach = hypot(width, height) / 2 + 1;
  const [top, bottom] = [max(0, place.y - reach), min(frameHeight, place.y + reach)];
  const [left, right] = [max(0, place.x - reach), min(frameWidth, place.x + reach)];
  for (let y = floor(top); y < bottom; y += 1) {
    for (let x = floor(left); x < right; x += 1) {
      const dx = x - place.x;
      const dy = y - place.y;
      const level = sheet(dx * cos + dy * sin, dy * cos - dx * sin);
      if (level !== undefined) canvas[y * frameWidth + x] = level;
    }
  }
}

/** Lines of made-up letters of five by seven dots. */
export function printedText(random: Random): Sized {
  const dot = random.between(1.5, 5);
  const [columns, lines] = [random.whole(6, 30), random.whole(1, 6)];
  const [width, height] = [columns * 6 * dot, lines * 10 * dot];
  const [ink, paper] = [random.between(10, 70), random.between(150, 240)];
  const letters = Array.from({ length: columns * lines }, () => letter(random));
  const sheet: Sheet = (x, y) => {
    const [column, line] = [(x + width / 2) / (6 * dot), (y + height / 2) / (10 * dot)];
    if (column < 0 || line < 0 || column >= columns || line >= lines) return undefined;
    const dots = letters[floor(line) * columns + floor(column)]!;
    const [dx, dy] = [floor((column % 1) * 6), floor((line % 1) * 10)];
    return dx < 5 && dy < 7 && dots[dy * 5 + dx] ? ink : paper;
  };
  return { sheet, width, height };
}

/** Strokes rather than dots at random: whole rows and columns of the cell. */
function letter(random: Random): boolean[] {
  const dots = Array.from({ length: 35 }, () => false);
  for (let stroke = random.whole(2, 4); stroke > 0; stroke -= 1) {
    const isUpright = random.next() < 0.5;
    const line = isUpright ? random.whole(0, 4) : random.whole(0, 6);
    for (let at = 0; at < (isUpright ? 7 : 5); at += 1) {
      dots[isUpright ? at * 5 + line : line * 5 + at] = true;
    }
  }
  return dots;
}

/** Bars of random widths: a linear symbol but for its meaning. */
function stripes(random: Random): Sized {
  const module = random.between(1.6, 6);
  const count = random.whole(20, 160);
  const bars = Array.from({ length: count }, (_, at) => at % 2 === 0);
  const widths = bars.map(() => random.whole(1, random.pick([2, 4])) * module);
  return barsOf(widths, random);
}

/** Lines at equal distances: a ruler, a comb, ruled paper. */
function ruledLines(random: Random): Sized {
  const [line, gap] = [random.between(1.5, 4), random.between(2, 16)];
  const widths = Array.from({ length: random.whole(10, 120) }, (_, at) => (at % 2 ? gap : line));
  return barsOf(widths, random);
}

function barsOf(widths: readonly number[], random: Random): Sized {
  const ends = widths.map(
    (
      (sum) => (width: number) =>
        (sum += width)
    )(0),
  );
  const width = ends.at(-1)!;
  const height = random.between(30, 300);
  const [ink, paper] = [random.between(5, 70), random.between(160, 250)];
  const levels = new Float32Array(ceil(width) + 1).map((_, x) =>
    ends.findIndex((end) => end > x) % 2 ? paper : ink,
  );
  const sheet: Sheet = (x, y) => {
    const at = x + width / 2;
    return at < 0 || at >= width || abs(y) > height / 2 ? undefined : levels[floor(at)];
  };
  return { sheet, width, height };
}

/** Squares at random: a matrix symbol but for its meaning. */
function squares(random: Random): Sized {
  const [module, side] = [random.between(1.8, 7), random.whole(8, 40)];
  const dark = Array.from({ length: side * side }, () => random.next() < 0.5);
  // Some with the two solid edges of a DataMatrix, some with its alternating ones too.
  const [hasEdges, hasClock] = [random.next() < 0.6, random.next() < 0.5];
  const [ink, paper] = [random.between(5, 70), random.between(160, 250)];
  const size = (side + 4) * module;
  const sheet: Sheet = (x, y) => {
    const [column, row] = [x + size / 2, y + size / 2].map((at) => floor(at / module) - 2);
    if (column! < -2 || row! < -2 || column! >= side + 2 || row! >= side + 2) return undefined;
    if (column! < 0 || row! < 0 || column! >= side || row! >= side) return paper;
    if (hasEdges && (column === 0 || row === side - 1)) return ink;
    if (hasClock && row === 0) return column! % 2 ? paper : ink;
    if (hasClock && column === side - 1) return row! % 2 ? ink : paper;
    return dark[row! * side + column!] ? ink : paper;
  };
  return { sheet, width: size, height: size };
}

export const decoys = {
  clutter: undefined,
  text: printedText,
  lines: ruledLines,
  stripes,
  squares,
};
export type Decoy = keyof typeof decoys;

/** Clutter with something in it that is no symbol. */
export function drawDecoy(kind: Decoy, random: Random): Canvas {
  const canvas = drawClutter(random);
  const make = decoys[kind];
  if (make === undefined) return canvas;
  for (let count = random.whole(2, 5); count > 0; count -= 1) {
    const place = placeAtRandom(random);
    const turn = random.next() < 0.5 ? random.between(-0.1, 0.1) : place.turn;
    paintSheet(canvas, make(random), { ...place, turn });
  }
  return canvas;
}
