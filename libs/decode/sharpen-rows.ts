import { emptyPicture, type Picture } from "./picture.ts";

const rounds = 4;

/**
 * Takes the blur of a lens out of rows of bars: in each round what a blurred guess lacks of the
 * row is added to the guess (van Cittert's method). The blur is a deviation in pixels. It needs
 * rows with little noise, as averages are.
 */
export function sharpenRows({ grey, width, height }: Picture, blur: number): Picture {
  const sharp = emptyPicture(width, height);
  const weights = weightsOf(blur);
  for (let row = 0; row < height; row += 1) {
    const line = grey.subarray(row * width, (row + 1) * width);
    const guess = Float32Array.from(line);
    for (let round = 0; round < rounds; round += 1) {
      const blurred = blurRow(guess, weights);
      for (let x = 0; x < width; x += 1) {
        const better = guess[x]! + line[x]! - blurred[x]!;
        guess[x] = better < 0 ? 0 : better > 255 ? 255 : better;
      }
    }
    sharp.grey.set(guess, row * width);
  }
  return sharp;
}

/** Of a pixel itself and of those to one side of it. */
function weightsOf(blur: number): number[] {
  const weights = Array.from({ length: Math.ceil(2 * blur) + 1 }, (_, far) =>
    Math.exp(-(far * far) / (2 * blur * blur)),
  );
  const sum = weights.reduce((total, weight, far) => total + (far === 0 ? weight : 2 * weight), 0);
  return weights.map((weight) => weight / sum);
}

/** Beyond its ends a row goes on as it ends. */
function blurRow(line: Float32Array, weights: readonly number[]): Float32Array {
  const blurred = line.map((level) => level * weights[0]!);
  const last = line.length - 1;
  for (let far = 1; far < weights.length; far += 1) {
    const weight = weights[far]!;
    for (let x = 0; x < line.length; x += 1) {
      const before = line[x < far ? 0 : x - far]!;
      const after = line[x + far > last ? last : x + far]!;
      blurred[x]! += weight * (before + after);
    }
  }
  return blurred;
}
