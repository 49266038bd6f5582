import {
  boxOf,
  groupTiles,
  leastOfTile,
  middleOf,
  tile,
  type Box,
  type Tiles,
} from "./edge-tiles.ts";

const [smallest, largest] = [3 * tile, 25 * tile];

/**
 * Finds where matrix symbols may be, the largest groups first: tiles whose edges cross. The boxes
 * lie along the rows, and print is found as well.
 */
export function findSquares(tiles: Tiles): Box[] {
  const { directed, energy } = tiles;
  const crossed = energy.map((level, at) => level - directed[at]!);
  const least = Math.max(leastOfTile, 1.45 * middleOf(crossed));
  const isMember = (at: number): boolean =>
    crossed[at]! > least && crossed[at]! > 0.3 * energy[at]!;
  const fits = (side: number): boolean => side >= smallest && side <= largest;
  return groupTiles(tiles, isMember, () => true)
    .sort((one, other) => other.length - one.length)
    .map((group) => boxOf(tiles, group, 0))
    .filter(({ width, height }) => fits(width) && fits(height));
}
