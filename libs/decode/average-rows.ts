import { emptyPicture, type Picture } from "./picture.ts";

/**
 * Folds a picture of upright bars into at most `bands` rows, each the mean of its own share of the
 * rows: noise goes, bars stay. No two of them share a pixel.
 */
export function averageRows({ grey, width, height }: Picture, bands: number): Picture {
  const folded = emptyPicture(width, Math.min(bands, height));
  const sums = new Float32Array(width);
  for (let band = 0; band < folded.height; band += 1) {
    const from = Math.floor((band * height) / folded.height);
    const to = Math.floor(((band + 1) * height) / folded.height);
    sums.fill(0);
    for (let row = from; row < to; row += 1) {
      const start = row * width;
      for (let x = 0; x < width; x += 1) sums[x]! += grey[start + x]!;
    }
    for (let x = 0; x < width; x += 1) folded.grey[band * width + x] = sums[x]! / (to - from);
  }
  return folded;
}
