import { describe, expect, test } from "@jest/globals";
import { measureTiles } from "./edge-tiles.ts";
import { findBars } from "./find-bars.ts";
import { findSquares } from "./find-squares.ts";
import { emptyPicture, type Picture } from "./picture.ts";

/** From 0, paper, to 1, ink. */
type Ink = (along: number, across: number) => number;

/** Ink on a rectangle of 200 by 80 around (160, 120) that lies at an angle, on paper with grain. */
function drawTurned(turn: number, inkAt: Ink): Picture {
  const picture = emptyPicture(320, 240);
  for (let at = 0; at < picture.grey.length; at += 1) {
    const [dx, dy] = [(at % 320) - 160, Math.floor(at / 320) - 120];
    const along = dx * Math.cos(turn) + dy * Math.sin(turn);
    const across = dy * Math.cos(turn) - dx * Math.sin(turn);
    const isInside = Math.abs(along) < 100 && Math.abs(across) < 40;
    picture.grey[at] = 200 - (isInside ? 160 * inkAt(along, across) : 0) + ((at * 7919) % 5);
  }
  return picture;
}

const bars: Ink = (along) => 0.5 + 0.5 * Math.cos(along);
const squares: Ink = (along, across) => {
  const [column, row] = [Math.floor(along / 4), Math.floor(across / 4)];
  const scrambled = Math.sin(column * 12.9898 + row * 78.233) * 43758.5453;
  return scrambled - Math.floor(scrambled) < 0.5 ? 1 : 0;
};
const paper: Ink = () => 0;

describe("bars", () => {
  test.each([0, 0.4, 1.2, -0.7, 1.55])("are found at %f radians with their size", (turn) => {
    const [found, ...others] = findBars(measureTiles(drawTurned(turn, bars)));
    expect(others).toEqual([]);
    // Upright and upside down are the same bars.
    const off = (found!.turn - turn + 2 * Math.PI) % Math.PI;
    expect(Math.min(off, Math.PI - off)).toBeLessThan(0.03);
    expect(Math.hypot(found!.centre.x - 160, found!.centre.y - 120)).toBeLessThan(16);
    expect(Math.abs(found!.width - 200)).toBeLessThan(40);
    expect(Math.abs(found!.height - 80)).toBeLessThan(40);
  });

  test("are not found in squares, in paper, or in a picture smaller than a tile", () => {
    expect(findBars(measureTiles(drawTurned(0, squares)))).toEqual([]);
    expect(findBars(measureTiles(drawTurned(0, paper)))).toEqual([]);
    expect(findBars(measureTiles(emptyPicture(9, 9)))).toEqual([]);
  });
});

describe("squares", () => {
  test("are found where edges cross", () => {
    const [found, ...others] = findSquares(measureTiles(drawTurned(0, squares)));
    expect(others).toEqual([]);
    expect(Math.hypot(found!.centre.x - 160, found!.centre.y - 120)).toBeLessThan(16);
  });

  test("are not found in paper, or in a picture smaller than a tile", () => {
    expect(findSquares(measureTiles(emptyPicture(9, 9)))).toEqual([]);
    expect(findSquares(measureTiles(drawTurned(0, paper)))).toEqual([]);
  });
});
