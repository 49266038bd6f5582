import type { Picture, Point } from "./picture.ts";

/** The side of a tile, in pixels. */
export const tile = 16;
const samplesOfTile = (tile * tile) / 2;

/** The mean difference between neighbours, of 255, below which there is nothing to read. */
const leastEdge = 7;

/** What a tile has at least that has anything to read. */
export const leastOfTile = leastEdge * leastEdge * samplesOfTile;

/** The edges of a picture, summed over each tile: the structure tensor. */
export interface Tiles {
  readonly columns: number;
  readonly rows: number;
  /** Of all edges. */
  readonly energy: Float32Array;
  /** Of what has a direction, as a vector: it turns twice as fast as the edges do. */
  readonly doubledX: Float32Array;
  readonly doubledY: Float32Array;
  /** The length of that vector. */
  readonly directed: Float32Array;
}

/** Measures all whole tiles of a picture from differences between neighbouring pixels. */
export function measureTiles({ grey, width, height }: Picture): Tiles {
  const columns = Math.max(0, Math.floor((width - 1) / tile));
  const rows = Math.max(0, Math.floor((height - 1) / tile));
  const [energy, doubledX, doubledY, directed] = Array.from(
    { length: 4 },
    () => new Float32Array(columns * rows),
  ) as [Float32Array, Float32Array, Float32Array, Float32Array];
  for (let at = 0; at < energy.length; at += 1) {
    const start = Math.floor(at / columns) * tile * width + (at % columns) * tile;
    let [downwards, upwards, mixed] = [0, 0, 0];
    for (let row = 0; row < tile; row += 1) {
      const first = start + row * width;
      // Every second pixel, as on a chessboard.
      for (let pixel = first + (row & 1); pixel < first + tile; pixel += 2) {
        // Along both diagonals: between pixels as near as can be, for the finest bars.
        const down = grey[pixel + width + 1]! - grey[pixel]!;
        const up = grey[pixel + 1]! - grey[pixel + width]!;
        downwards += down * down;
        upwards += up * up;
        mixed += down * up;
      }
    }
    energy[at] = downwards + upwards;
    // Turned by an eighth, from the diagonals to the rows.
    doubledX[at] = 2 * mixed;
    doubledY[at] = downwards - upwards;
    directed[at] = Math.hypot(2 * mixed, downwards - upwards);
  }
  return { columns, rows, energy, doubledX, doubledY, directed };
}

/** The level that half of the tiles do not reach: what noise alone has. */
export const middleOf = (levels: Float32Array): number =>
  levels.slice().sort()[levels.length >> 1] ?? 0;

/** Members that touch, diagonally too, and belong together, by their numbers. */
export function groupTiles(
  { columns, rows }: Tiles,
  isMember: (at: number) => boolean,
  belong: (one: number, other: number) => boolean,
): number[][] {
  const isTaken = new Uint8Array(columns * rows);
  const groups: number[][] = [];
  for (let seed = 0; seed < isTaken.length; seed += 1) {
    if (isTaken[seed] || !isMember(seed)) continue;
    const group = [seed];
    isTaken[seed] = 1;
    // The group grows while it is walked.
    for (const at of group) {
      for (const next of neighboursOf({ columns, rows }, at)) {
        if (isTaken[next] || !isMember(next) || !belong(at, next)) continue;
        isTaken[next] = 1;
        group.push(next);
      }
    }
    groups.push(group);
  }
  return groups;
}

function* neighboursOf(
  { columns, rows }: Pick<Tiles, "columns" | "rows">,
  at: number,
): Generator<number> {
  const [column, row] = [at % columns, Math.floor(at / columns)];
  for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y += 1) {
    for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x += 1) {
      yield y * columns + x;
    }
  }
}

/** A turned rectangle in pixels of the picture. */
export interface Box {
  readonly centre: Point;
  /** In radians from the rows, clockwise as one looks at it. */
  readonly turn: number;
  /** Along that direction and across it. */
  readonly width: number;
  readonly height: number;
}

/** The rectangle around a group of tiles that lies at an angle. */
export function boxOf(tiles: Tiles, group: readonly number[], turn: number): Box {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const at of group) {
    const x = ((at % tiles.columns) + 0.5) * tile;
    const y = (Math.floor(at / tiles.columns) + 0.5) * tile;
    const [along, across] = [x * cos + y * sin, y * cos - x * sin];
    [left, right] = [Math.min(left, along), Math.max(right, along)];
    [top, bottom] = [Math.min(top, across), Math.max(bottom, across)];
  }
  const [along, across] = [(left + right) / 2, (top + bottom) / 2];
  return {
    centre: { x: along * cos - across * sin, y: along * sin + across * cos },
    turn,
    width: right - left + tile,
    height: bottom - top + tile,
  };
}
