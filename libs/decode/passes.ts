import { averageRows } from "./average-rows.ts";
import { measureTiles } from "./edge-tiles.ts";
import { findBars } from "./find-bars.ts";
import { findSquares } from "./find-squares.ts";
import { levelRows } from "./level-rows.ts";
import { meanFilter } from "./mean-filter.ts";
import type { Picture, Point } from "./picture.ts";
import { allFormats, linearFormats, matrixFormats } from "./reader.ts";
import type { Effort, SymbolReader } from "./reader.ts";
import { pointInOriginal, resample, type Cutting } from "./resample.ts";
import { sharpenRows } from "./sharpen-rows.ts";

/** One picture to be looked at once, and where its points lie in the picture it was made from. */
export interface Look {
  readonly picture: Picture;
  readonly effort: Effort;
  readonly pointOf: (point: Point) => Point;
}

/** A way to prepare a picture for the decoder: none, one or several looks. */
export type Pass = (picture: Picture) => Look[];

const plain: Effort = {
  formats: allFormats,
  harder: true,
  rotated: false,
  inverted: false,
  shrunk: false,
};
const everything: Effort = { ...plain, rotated: true, inverted: true, shrunk: true };
const matrix: Effort = { ...plain, formats: matrixFormats };
const linear: Effort = { ...plain, formats: linearFormats };

const asItIs = (point: Point): Point => point;

/** The picture as it is, with all the decoder can do. */
export const wholeThoroughly: Pass = (picture) => [
  { picture, effort: everything, pointOf: asItIs },
];

/** The picture as it is, upright symbols only. */
const whole: Pass = (picture) => [{ picture, effort: plain, pointOf: asItIs }];

/** For noise, in which the squares of a matrix symbol drown. */
const wholeSmoothed: Pass = (picture) => [
  { picture: meanFilter(picture), effort: matrix, pointOf: asItIs },
];

/** For small squares: the middle, where a person holds what is to be read, at double size. */
const middleDoubled =
  (effort: Effort, size = { width: 480, height: 400 }): Pass =>
  (picture) => {
    const cutting: Cutting = {
      centre: { x: picture.width / 2, y: picture.height / 2 },
      turn: 0,
      width: Math.min(picture.width, size.width),
      height: Math.min(picture.height, size.height),
      scale: 2,
    };
    const cut = resample(picture, cutting);
    return [{ picture: cut, effort, pointOf: (point) => pointInOriginal(cutting, point, cut) }];
  };
const nearMiddle = { width: 440, height: 360 };

/**
 * For a decoder that finds a matrix symbol only around the middle of what it is given: each place
 * where one may be.
 */
const squares: Pass = (picture) =>
  findSquares(measureTiles(picture))
    .slice(0, 6)
    .map(({ centre, turn, width, height }) => {
      const cutting = { centre, turn, scale: 1, width: width + 24, height: height + 24 };
      const cut = resample(picture, cutting);
      const pointOf = (point: Point): Point => pointInOriginal(cutting, point, cut);
      return { picture: cut, effort: matrix, pointOf };
    });

interface BarsPass {
  /** How many places, of those with the most bars. */
  places: number;
  scale: number;
  /** Against the blur of a lens that is not in focus. */
  sharp?: boolean;
}

/** Rows that are made of all the rows along a place, and how far one looks for black and white. */
const bands = 16;
const mostRows = 96;
const reach = 24;

/** How far out of focus a lens is taken to be: a deviation in pixels, about a module. */
const blur = 1.5;

/**
 * For linear symbols: each place with bars straightened and averaged over many rows, which takes
 * out turn, noise, shadow and gleam. The decoder wants two of the rows to agree.
 */
const bars =
  ({ places, scale, sharp = false }: BarsPass): Pass =>
  (picture) =>
    findBars(measureTiles(picture))
      .slice(0, places)
      .map(({ centre, turn, width, height }) => {
        // Room for the quiet zones along; across, without what the tiles took in beyond the bars.
        const inner = Math.max(8, height - 16);
        const rows = Math.min(Math.round(inner), mostRows);
        const cutting = { centre, turn, scale, width: width + 60, height: inner, rows };
        const cut = resample(picture, cutting);
        const mean = averageRows(cut, bands);
        const level = levelRows(sharp ? sharpenRows(mean, blur * scale) : mean, reach * scale);
        const pointOf = ({ x, y }: Point): Point =>
          pointInOriginal(cutting, { x, y: (y * cut.height) / level.height }, cut);
        return { picture: level, effort: linear, pointOf };
      });

/** The passes for one kind of reader. */
export interface Plan {
  /** All of them, for a still picture. */
  readonly still: readonly Pass[];
  /** Those of each frame of a camera, in turns. */
  readonly frames: readonly (readonly Pass[])[];
}

const barsOfStill: readonly Pass[] = [
  bars({ places: 6, scale: 1 }),
  bars({ places: 6, scale: 2 }),
  bars({ places: 6, scale: 1, sharp: true }),
  bars({ places: 6, scale: 2, sharp: true }),
];

const withWasm: Plan = {
  still: [
    wholeThoroughly,
    ...barsOfStill,
    middleDoubled({ ...matrix, rotated: true, inverted: true }),
    wholeSmoothed,
  ],
  frames: [
    [bars({ places: 3, scale: 1 }), middleDoubled(matrix, nearMiddle)],
    [bars({ places: 2, scale: 1, sharp: true }), whole],
    [bars({ places: 3, scale: 1 }), middleDoubled({ ...matrix, rotated: true }, nearMiddle)],
    [bars({ places: 2, scale: 2, sharp: true }), wholeSmoothed],
  ],
};

const withoutWasm: Plan = {
  still: [wholeThoroughly, ...barsOfStill, squares, wholeSmoothed],
  frames: [
    [bars({ places: 3, scale: 1 }), squares],
    [bars({ places: 3, scale: 1, sharp: true }), whole],
    [bars({ places: 3, scale: 2 }), squares],
  ],
};

/** What a reader looks at; each pass is there for what the others miss. */
export const planOf = ({ name }: Pick<SymbolReader, "name">): Plan =>
  name === "script" ? withoutWasm : withWasm;
