import { expect, test } from "@jest/globals";
import fc from "fast-check";
import { builtInSheets, checkSheet, placeOnSheet, type SheetGeometry } from "./label-sheet.ts";

const a4 = builtInSheets[0]!;

test.each(builtInSheets.map((sheet) => [sheet.id, sheet] as const))(
  "%s is possible, and lies in the middle of its page",
  (_id, sheet) => {
    expect(checkSheet(sheet)).toBe(undefined);
    const last = placeOnSheet(sheet, sheet.columns * sheet.rows - 1);
    const right = sheet.pageWidthUm - last.xUm - sheet.labelWidthUm;
    const bottom = sheet.pageHeightUm - last.yUm - sheet.labelHeightUm;
    expect(Math.abs(right - sheet.marginLeftUm)).toBeLessThanOrEqual(1);
    expect(Math.abs(bottom - sheet.marginTopUm)).toBeLessThanOrEqual(1);
  },
);

test("built-in sheets have the sizes that their names state", () => {
  for (const { id, columns, rows } of builtInSheets) {
    expect(id).toMatch(new RegExp(`-${columns}x${rows}$`));
  }
  const inch = 25_400;
  const [twenty, ten] = ["letter-4x20", "letter-3x10"].map((id) =>
    builtInSheets.find((sheet) => sheet.id === id)!,
  );
  expect([twenty!.labelWidthUm, twenty!.labelHeightUm]).toEqual([1.75 * inch, 0.5 * inch]);
  expect([ten!.labelWidthUm, ten!.labelHeightUm]).toEqual([2.625 * inch, inch]);
  expect([ten!.pageWidthUm, ten!.pageHeightUm]).toEqual([8.5 * inch, 11 * inch]);
});

test("labels fill the rows from left to right, then the next page", () => {
  const at = (index: number) => placeOnSheet(a4, index);
  expect(at(0)).toEqual({ page: 0, xUm: a4.marginLeftUm, yUm: a4.marginTopUm });
  expect(at(1)).toEqual({ page: 0, xUm: a4.marginLeftUm + a4.pitchXUm, yUm: a4.marginTopUm });
  expect(at(5)).toEqual({ page: 0, xUm: a4.marginLeftUm, yUm: a4.marginTopUm + a4.pitchYUm });
  expect(at(64).page).toBe(0);
  expect(at(65)).toEqual({ ...at(0), page: 1 });
});

test.each([
  ["overlapping", { pitchXUm: a4.labelWidthUm - 1 }],
  ["overlapping", { pitchYUm: a4.labelHeightUm - 1 }],
  ["off-page", { marginLeftUm: a4.marginLeftUm + 10_000 }],
  ["off-page", { pageHeightUm: 280_000 }],
  ["too-many", { columns: 50, rows: 11 }],
] as const)("a sheet is %s with %j", (fault, change) => {
  expect(checkSheet({ ...a4, ...change })).toBe(fault);
});

test("a single column needs no pitch, and labels may touch", () => {
  expect(checkSheet({ ...a4, columns: 1, pitchXUm: 1_000 })).toBe(undefined);
  expect(checkSheet({ ...a4, pitchXUm: a4.labelWidthUm })).toBe(undefined);
});

test("on any possible sheet no two labels overlap and none leaves the page", () => {
  const um = (max: number) => fc.integer({ min: 1_000, max });
  const sheets: fc.Arbitrary<SheetGeometry> = fc.record({
    pageWidthUm: um(300_000),
    pageHeightUm: um(300_000),
    columns: fc.integer({ min: 1, max: 8 }),
    rows: fc.integer({ min: 1, max: 8 }),
    labelWidthUm: um(60_000),
    labelHeightUm: um(60_000),
    marginLeftUm: fc.integer({ min: 0, max: 20_000 }),
    marginTopUm: fc.integer({ min: 0, max: 20_000 }),
    pitchXUm: um(60_000),
    pitchYUm: um(60_000),
  });
  let possible = 0;
  fc.assert(
    fc.property(sheets, (sheet) => {
      const places = Array.from({ length: sheet.columns * sheet.rows }, (_, index) =>
        placeOnSheet(sheet, index),
      );
      const off = places.some(
        ({ xUm, yUm }) =>
          xUm + sheet.labelWidthUm > sheet.pageWidthUm ||
          yUm + sheet.labelHeightUm > sheet.pageHeightUm,
      );
      const overlapping = places.some((a, i) =>
        places
          .slice(0, i)
          .some(
            (b) =>
              Math.abs(a.xUm - b.xUm) < sheet.labelWidthUm &&
              Math.abs(a.yUm - b.yUm) < sheet.labelHeightUm,
          ),
      );
      const fault = checkSheet(sheet);
      if (fault === undefined) possible += 1;
      expect(fault === undefined).toBe(!off && !overlapping);
    }),
    { numRuns: 3_000 },
  );
  expect(possible).toBeGreaterThan(100);
});
