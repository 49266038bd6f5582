import { emptyPicture, type Picture } from "./picture.ts";

/**
 * Makes the darkest of each row black and the lightest white, measured anew around each pixel, as
 * far as `reach` pixels to both sides: a shadow or a gleam over part of a row goes, its bars stay.
 */
export function levelRows({ grey, width, height }: Picture, reach: number): Picture {
  const levelled = emptyPicture(width, height);
  for (let row = 0; row < height; row += 1) {
    const line = grey.subarray(row * width, (row + 1) * width);
    const low = slidingExtreme(line, reach, (one, other) => one < other);
    const high = slidingExtreme(line, reach, (one, other) => one > other);
    const least = leastSpread(line);
    for (let x = 0; x < width; x += 1) {
      const spread = high[x]! - low[x]!;
      const whole = spread < least ? least : spread;
      levelled.grey[row * width + x] = 255 - ((high[x]! - line[x]!) * 255) / whole;
    }
  }
  return levelled;
}

/** A part with less contrast than this is paper, whose grain must not become bars. */
function leastSpread(line: Uint8ClampedArray): number {
  let [low, high] = [255, 0];
  for (const level of line) {
    if (level < low) low = level;
    if (level > high) high = level;
  }
  return Math.max(6, (high - low) / 5);
}

/** The foremost level around each pixel; candidates wait in a queue, the foremost at its head. */
function slidingExtreme(
  line: Uint8ClampedArray,
  reach: number,
  isBefore: (one: number, other: number) => boolean,
): Uint8ClampedArray {
  const found = new Uint8ClampedArray(line.length);
  const queue = new Uint32Array(line.length);
  let [head, end] = [0, 0];
  for (let x = 0; x < line.length + reach; x += 1) {
    if (x < line.length) {
      while (end > head && !isBefore(line[queue[end - 1]!]!, line[x]!)) end -= 1;
      queue[end++] = x;
    }
    const centre = x - reach;
    if (centre < 0) continue;
    while (queue[head]! < centre - reach) head += 1;
    found[centre] = line[queue[head]!]!;
  }
  return found;
}
