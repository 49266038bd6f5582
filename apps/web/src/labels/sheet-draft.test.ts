import { expect, test } from "@jest/globals";
import type { SheetGeometry } from "#domain";
import { draftOf, nameOfPage, pages, readDraft } from "./sheet-draft.ts";

/** Letter with three columns of ten: 2 5/8 by 1 in (common practice, no source). */
const letter: SheetGeometry = {
  ...pages.letter,
  columns: 3,
  rows: 10,
  labelWidthUm: 66_675,
  labelHeightUm: 25_400,
  marginLeftUm: 4_763,
  marginTopUm: 12_700,
  pitchXUm: 69_850,
  pitchYUm: 25_400,
};

test("a sheet is typed in the unit of its page, and nothing is lost on the way", () => {
  const draft = draftOf(letter, "en");
  expect(draft.unit).toBe("in");
  expect(draft.typed).toMatchObject({ pageWidthUm: "8.5", labelWidthUm: "2.625", columns: "3" });
  expect(readDraft(draft)).toEqual({ shape: letter, faulty: new Set() });
  for (const unit of ["mm", "in"] as const) {
    expect(readDraft(draftOf(letter, "de", unit)).shape).toEqual(letter);
  }
});

test("a page is known by its size", () => {
  expect(nameOfPage(letter)).toBe("letter");
  expect(nameOfPage(pages.a4)).toBe("a4");
  expect(nameOfPage({ pageWidthUm: 297_000, pageHeightUm: 210_000 })).toBe("other");
});

test("what cannot be read is named, and there is no sheet until it can", () => {
  const { typed, unit } = draftOf(letter, "en");
  const broken = { pitchXUm: "wide", labelHeightUm: "0", columns: "0", rows: "101" };
  const { shape, faulty } = readDraft({ unit, typed: { ...typed, ...broken } });
  expect(shape).toBeNull();
  expect([...faulty].sort()).toEqual(["columns", "labelHeightUm", "pitchXUm", "rows"]);
  expect(readDraft({ unit, typed: { ...typed, columns: "2.5" } }).faulty).toEqual(
    new Set(["columns"]),
  );
});

test("a margin may be nothing, a label may not", () => {
  const { typed, unit } = draftOf(letter, "en");
  expect(readDraft({ unit, typed: { ...typed, marginTopUm: "0" } }).shape?.marginTopUm).toBe(0);
  expect(readDraft({ unit, typed: { ...typed, labelWidthUm: "0" } }).shape).toBeNull();
});
