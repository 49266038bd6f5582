import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { scaleReadings } from "./light-chart.ts";

const day = 86_400_000;
const at = (days: number, value: number) => ({ atMs: days * day, value });

describe("the picture of a light", () => {
  test("stands on nothing, with round lines up to above all readings", () => {
    const { ticks, points } = scaleReadings([at(0, 1226), at(90, 1100), at(180, 613)], 400);
    expect(ticks).toEqual([0, 500, 1000, 1500]);
    expect(points.map(({ x }) => x)).toEqual([0, 0.5, 1]);
    expect(points[2]!.y).toBeCloseTo(613 / 1500);
  });

  test("has room for the floor, and one reading in its middle", () => {
    const { ticks, points, heightOf } = scaleReadings([at(3, 200)], 1000);
    expect(ticks.at(-1)).toBe(1000);
    expect(points).toMatchObject([{ x: 0.5, y: 0.2 }]);
    expect(heightOf(1000)).toBe(1);
    expect(scaleReadings([], 400).points).toEqual([]);
  });

  test("keeps everything inside, whatever was read", () => {
    const values = fc.array(fc.integer({ min: 0, max: 20_000 }), { maxLength: 30 });
    fc.assert(
      fc.property(values, fc.integer({ min: 0, max: 5000 }), (read, floor) => {
        const { points, heightOf, ticks } = scaleReadings(
          read.map((value, index) => at(index, value)),
          floor,
        );
        for (const { x, y } of points) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(1);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(1);
        }
        expect(heightOf(floor)).toBeLessThanOrEqual(1);
        expect(ticks.length).toBeLessThanOrEqual(6);
      }),
    );
  });
});
