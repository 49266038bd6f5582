import { emptyPicture, type Picture } from "./picture.ts";

/**
 * Each pixel becomes the mean of the three by three around it, which takes out a sensor's noise. At
 * the edges the outermost pixels are repeated.
 */
export function meanFilter(picture: Picture): Picture {
  const { grey, width, height } = picture;
  const mean = emptyPicture(width, height);
  const sums = new Uint16Array(width);
  for (let row = 0; row < height; row += 1) {
    const here = row * width;
    const above = Math.max(0, row - 1) * width;
    const below = Math.min(height - 1, row + 1) * width;
    for (let x = 0; x < width; x += 1)
      sums[x] = grey[above + x]! + grey[here + x]! + grey[below + x]!;
    let [before, now] = [sums[0]!, sums[0]!];
    for (let x = 0; x < width; x += 1) {
      const after = sums[x + 1] ?? now;
      mean.grey[here + x] = (before + now + after) / 9;
      [before, now] = [now, after];
    }
  }
  return mean;
}
