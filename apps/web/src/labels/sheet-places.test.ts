import { describe, expect, test } from "@jest/globals";
import { builtInSheets, checkSheet, type SheetGeometry } from "#domain";
import {
  countPlaces,
  fitStart,
  listCorners,
  measureFaults,
  placeAt,
  planSheets,
} from "./sheet-places.ts";

/** A4 with three columns of eight: 63.5 by 33.9 mm, a common size (common practice, no source). */
const sheet: SheetGeometry = {
  pageWidthUm: 210_000,
  pageHeightUm: 297_000,
  columns: 3,
  rows: 8,
  labelWidthUm: 63_500,
  labelHeightUm: 33_900,
  marginLeftUm: 7_200,
  marginTopUm: 12_900,
  pitchXUm: 66_000,
  pitchYUm: 33_900,
};

describe("the labels of a sheet", () => {
  test("stand along the rows from the upper left", () => {
    const corners = listCorners(sheet);
    expect(corners).toHaveLength(24);
    expect(corners[0]).toMatchObject({ xUm: 7_200, yUm: 12_900 });
    expect(corners[1]).toMatchObject({ xUm: 73_200, yUm: 12_900 });
    expect(corners[3]).toMatchObject({ xUm: 7_200, yUm: 46_800 });
  });

  test("are each found by a tap on their middle, their edge and beside the page's labels", () => {
    listCorners(sheet).forEach(({ xUm, yUm }, index) => {
      const middle = { xUm: xUm + 31_750, yUm: yUm + 16_950 };
      expect(placeAt(sheet, middle)).toBe(index + 1);
      expect(placeAt(sheet, { xUm: xUm + 1, yUm: yUm + 1 })).toBe(index + 1);
    });
    expect(placeAt(sheet, { xUm: 0, yUm: 0 })).toBe(1);
    expect(placeAt(sheet, { xUm: 210_000, yUm: 297_000 })).toBe(24);
    // Two and a half millimetres stand between the columns: the nearer label has it.
    expect(placeAt(sheet, { xUm: 71_900, yUm: 20_000 })).toBe(1);
    expect(placeAt(sheet, { xUm: 72_000, yUm: 20_000 })).toBe(2);
  });
});

describe("the first free label", () => {
  const places = countPlaces(sheet);

  test("moves on by as many as were printed, and starts a new sheet after the last", () => {
    expect(planSheets(5, 1, places)).toEqual({ sheets: 1, nextFree: 6 });
    expect(planSheets(19, 6, places)).toEqual({ sheets: 1, nextFree: 1 });
    expect(planSheets(20, 6, places)).toEqual({ sheets: 2, nextFree: 2 });
    expect(planSheets(50, 24, places)).toEqual({ sheets: 4, nextFree: 2 });
  });

  test("is the next one printed on, whatever the numbers", () => {
    for (let start = 1; start <= places; start += 1) {
      for (let count = 1; count <= 3 * places; count += 1) {
        const { sheets, nextFree } = planSheets(count, start, places);
        const used = start - 1 + count;
        const freeAfter = sheets * places - used;
        expect(nextFree === 1 ? 0 : places - nextFree + 1).toBe(freeAfter);
      }
    }
  });

  test("begins anew where the sheet has no such label", () => {
    for (const kept of [0, 25, -1, 1.5, Number.NaN]) expect(fitStart(kept, places)).toBe(1);
    expect(fitStart(24, places)).toBe(24);
  });
});

describe("a sheet that cannot be", () => {
  test("has labels on each other, by how much", () => {
    expect(measureFaults(sheet)).toEqual([]);
    expect(measureFaults({ ...sheet, pitchXUm: 63_499 })).toEqual([{ kind: "overlap-x", by: 1 }]);
    expect(measureFaults({ ...sheet, pitchYUm: 33_000 })).toEqual([{ kind: "overlap-y", by: 900 }]);
  });

  test("has labels beyond the page", () => {
    const wide = { ...sheet, marginLeftUm: 14_501 };
    expect(measureFaults({ ...wide, marginLeftUm: 14_500 })).toEqual([]);
    expect(measureFaults(wide)).toEqual([{ kind: "beyond-right", by: 1 }]);
    expect(measureFaults({ ...sheet, rows: 9 })).toEqual([{ kind: "beyond-bottom", by: 21_000 }]);
  });

  test("may have any distance where there is one column or row alone", () => {
    const lone = { ...sheet, columns: 1, rows: 1, pitchXUm: 1_000, pitchYUm: 1_000 };
    expect(measureFaults(lone)).toEqual([]);
  });

  test("is refused here wherever the server refuses it, and nowhere else", () => {
    const numbers = [1, 2, 3, 13, 27, 60];
    const shapes = builtInSheets.flatMap((known) =>
      numbers.flatMap((columns) =>
        numbers.flatMap((rows) =>
          [-1_000, 0, 1_000].map((more) => ({
            ...known,
            columns,
            rows,
            pitchXUm: known.pitchXUm + more,
            marginTopUm: Math.max(0, known.marginTopUm + more),
          })),
        ),
      ),
    );
    const refused = shapes.filter((shape) => checkSheet(shape) !== undefined);
    expect(shapes.filter((shape) => measureFaults(shape).length > 0)).toEqual(refused);
    expect(refused.length).toBeGreaterThan(50);
    expect(refused.length).toBeLessThan(shapes.length);
  });
});
