import { boxOf, groupTiles, leastOfTile, tile, type Box, type Tiles } from "./edge-tiles.ts";

/**
 * Finds where linear symbols may be, at any angle, those with the most bars first: tiles in which
 * one direction prevails, joined where they touch and agree. The box lies across the bars. It is
 * generous: print, combs and edges of things are found as well.
 */
export function findBars(tiles: Tiles): Box[] {
  const { directed, doubledX, doubledY, energy } = tiles;
  // Noise has edges in all directions alike.
  const isMember = (at: number): boolean =>
    directed[at]! > leastOfTile && directed[at]! > 0.35 * energy[at]!;
  const isParallel = (one: number, other: number): boolean =>
    doubledX[one]! * doubledX[other]! + doubledY[one]! * doubledY[other]! >
    0.75 * directed[one]! * directed[other]!;
  return groupTiles(tiles, isMember, isParallel)
    .map((group) => ({ box: boxAcross(tiles, group), strength: sumOf(directed, group) }))
    .filter(({ box: { width, height } }) => width >= 4 * tile && height >= tile)
    .sort((one, other) => other.strength - one.strength)
    .map(({ box }) => box);
}

function boxAcross(tiles: Tiles, group: readonly number[]): Box {
  const { doubledX, doubledY } = tiles;
  return boxOf(tiles, group, Math.atan2(sumOf(doubledY, group), sumOf(doubledX, group)) / 2);
}

const sumOf = (levels: Float32Array, group: readonly number[]): number =>
  group.reduce((sum, at) => sum + levels[at]!, 0);
