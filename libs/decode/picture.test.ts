import { describe, expect, test } from "@jest/globals";
import { averageRows } from "./average-rows.ts";
import { levelRows } from "./level-rows.ts";
import { meanFilter } from "./mean-filter.ts";
import { emptyPicture, greyOf, halve, type Picture } from "./picture.ts";
import { pointInOriginal, resample } from "./resample.ts";
import { sharpenRows } from "./sharpen-rows.ts";

function pictureOf(...rows: readonly (readonly number[])[]): Picture {
  const picture = emptyPicture(rows[0]!.length, rows.length);
  picture.grey.set(rows.flat());
  return picture;
}

const rowsOf = ({ grey, width, height }: Picture): number[][] =>
  Array.from({ length: height }, (_, row) => [...grey.subarray(row * width, (row + 1) * width)]);

describe("the grey of colours", () => {
  test("weighs green most, and lays what is not opaque on white", () => {
    const [red, green, blue] = [
      [255, 0, 0, 255],
      [0, 255, 0, 255],
      [0, 0, 255, 255],
    ] as const;
    const [clear, half] = [
      [0, 0, 0, 0],
      [0, 0, 0, 128],
    ] as const;
    const rgba = Uint8ClampedArray.from([red, green, blue, clear, half].flat());
    expect(rowsOf(greyOf(rgba, 5, 1))).toEqual([[77, 149, 29, 255, 127]]);
  });

  test("needs as many bytes as the sizes say", () => {
    expect(() => greyOf(new Uint8ClampedArray(15), 2, 2)).toThrow(RangeError);
  });
});

test("half the size is the mean of four pixels each, without the odd row and column", () => {
  const picture = pictureOf([0, 100, 9], [200, 100, 9], [7, 7, 7]);
  expect(rowsOf(halve(picture))).toEqual([[100]]);
});

test("the mean filter takes out a single speck and keeps what is even", () => {
  const speck = pictureOf([0, 0, 0, 0], [0, 90, 0, 0], [0, 0, 0, 0]);
  expect(rowsOf(meanFilter(speck))[1]).toEqual([10, 10, 10, 0]);
  const even = pictureOf([80, 80, 80], [80, 80, 80]);
  expect(meanFilter(even)).toEqual(even);
});

test("averages of rows share no row and leave none out", () => {
  const picture = pictureOf([10, 0], [20, 0], [30, 3], [40, 5], [80, 10]);
  expect(rowsOf(averageRows(picture, 2))).toEqual([
    [15, 0],
    [50, 6],
  ]);
  expect(averageRows(picture, 9)).toEqual(picture);
});

describe("levelled rows", () => {
  test("have the same bars in shadow and in light", () => {
    const bars = Array.from({ length: 200 }, (_, x) => (x % 8 < 4 ? 0 : 1));
    const lit = bars.map((space, x) => (space ? 60 + x / 2 : 20 + x / 2));
    const middle = rowsOf(levelRows(pictureOf(lit), 12))[0]!.slice(20, 180);
    expect(middle.every((level, x) => level > 127 === (bars[x + 20] === 1))).toBe(true);
    // One threshold for the whole row would not do.
    expect(lit[4]).toBeLessThan(lit[192]!);
  });

  test("leave the grain of paper pale", () => {
    const row = Array.from({ length: 100 }, (_, x) =>
      x < 50 ? 200 + (x % 2) : x % 8 < 4 ? 0 : 200,
    );
    const paper = rowsOf(levelRows(pictureOf(row), 5))[0]!.slice(0, 40);
    expect(Math.min(...paper)).toBeGreaterThan(200);
  });

  test("know the darkest and lightest nearby exactly, at any reach", () => {
    const row = Array.from({ length: 60 }, (_, x) => (x * 7919) % 251);
    for (const reach of [1, 3, 17, 80]) {
      const levelled = rowsOf(levelRows(pictureOf(row), reach))[0]!;
      for (const [x, level] of levelled.entries()) {
        const near = row.slice(Math.max(0, x - reach), x + reach + 1);
        if (Math.max(...near) - Math.min(...near) < 60) continue;
        const wanted =
          (255 * (row[x]! - Math.min(...near))) / (Math.max(...near) - Math.min(...near));
        expect(Math.abs(level - wanted)).toBeLessThanOrEqual(1);
      }
    }
  });
});

test("sharpened rows are nearer to the bars than the blurred rows are", () => {
  const bars = Array.from({ length: 120 }, (_, x) => (x % 6 < 3 ? 40 : 200));
  const weights = [0.25, 0.5, 1, 0.5, 0.25].map((weight) => weight / 2.5);
  const blurred = bars.map((_, x) =>
    weights.reduce((sum, weight, tap) => sum + weight * (bars[x + tap - 2] ?? bars[x]!), 0),
  );
  const far = (row: readonly number[]): number =>
    row.reduce((sum, level, x) => sum + Math.abs(level - bars[x]!), 0);
  const [sharp] = rowsOf(sharpenRows(pictureOf(blurred), 1.2));
  expect(far(sharp!)).toBeLessThan(0.75 * far(blurred));
});

describe("a cutting", () => {
  const ramp = pictureOf(
    ...Array.from({ length: 40 }, (_, y) =>
      Array.from({ length: 60 }, (_unused, x) => 2 * x + 3 * y),
    ),
  );

  test("of the whole at its size is the picture", () => {
    const whole = { centre: { x: 30, y: 20 }, turn: 0, width: 60, height: 40, scale: 1 };
    const inner = rowsOf(resample(ramp, whole))
      .slice(0, 39)
      .map((row) => row.slice(0, 59));
    expect(inner).toEqual(
      rowsOf(ramp)
        .slice(0, 39)
        .map((row) => row.slice(0, 59)),
    );
  });

  test.each([0, 0.3, 1.2, -2.5])("at %f radians shows what its points say", (turn) => {
    const cutting = { centre: { x: 31, y: 19 }, turn, width: 16, height: 10, scale: 2 };
    const cut = resample(ramp, cutting);
    expect([cut.width, cut.height]).toEqual([32, 20]);
    for (const [column, row] of [
      [0, 0],
      [31, 0],
      [16, 10],
      [5, 19],
    ] as const) {
      const { x, y } = pointInOriginal(cutting, { x: column + 0.5, y: row + 0.5 }, cut);
      const wanted = 2 * (x - 0.5) + 3 * (y - 0.5);
      expect(Math.abs(cut.grey[row * 32 + column]! - wanted)).toBeLessThanOrEqual(1);
    }
  });

  test("beyond the picture goes on as the edge is", () => {
    const beyond = { centre: { x: 0, y: 20 }, turn: 0, width: 20, height: 2, scale: 1 };
    const [row] = rowsOf(resample(ramp, beyond));
    expect(row!.slice(0, 10)).toEqual(Array(10).fill(row![0]));
  });
});
