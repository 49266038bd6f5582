import { Agreement, type IsKnown } from "./agreement.ts";
import { planOf, wholeThoroughly, type Pass } from "./passes.ts";
import { halve, type Picture, type Point } from "./picture.ts";
import type { RawRead, SymbolRead, SymbolReader } from "./reader.ts";

/** What a camera's frame has; the passes know symbols of about the size they have there. */
const usualSide = 1920;

/**
 * The symbols of one still picture, each once, from all passes. Only those that are `sure` count;
 * of the others a person must say whether the text is the one that is printed. It takes some
 * tenths of a second for a million pixels, and a second or two for a large photograph.
 */
export async function readPicture(
  reader: SymbolReader,
  picture: Picture,
  isKnown: IsKnown = () => false,
): Promise<SymbolRead[]> {
  const reads: RawRead[][] = [];
  let [smaller, scale] = [picture, 1];
  while (Math.max(smaller.width, smaller.height) > usualSide) {
    if (scale === 1) reads.push(...(await readPasses(reader, picture, [wholeThoroughly])));
    [smaller, scale] = [halve(smaller), scale * 2];
  }
  for (const found of await readPasses(reader, smaller, planOf(reader).still)) {
    reads.push(found.map((read) => ({ ...read, corners: enlarge(read.corners, scale) })));
  }
  return new Agreement(isKnown, 0).judge(reads, 0);
}

const enlarge = (corners: readonly Point[], scale: number): Point[] =>
  corners.map(({ x, y }) => ({ x: x * scale, y: y * scale }));

/** What each pass reads, with corners in the picture itself. */
export async function readPasses(
  reader: SymbolReader,
  picture: Picture,
  passes: readonly Pass[],
): Promise<RawRead[][]> {
  const reads: RawRead[][] = [];
  for (const pass of passes) {
    const ofPass: RawRead[] = [];
    for (const look of pass(picture)) {
      const found = await reader.read(look.picture, look.effort);
      ofPass.push(...found.map((read) => ({ ...read, corners: read.corners.map(look.pointOf) })));
    }
    reads.push(ofPass);
  }
  return reads;
}
