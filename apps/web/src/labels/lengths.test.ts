import { expect, test } from "@jest/globals";
import { readLength, showLength, unitOfPage } from "./lengths.ts";

test("a length is read with a point, a comma or nothing", () => {
  for (const text of ["38.1", "38,1", " 38.10 "]) expect(readLength(text, "mm")).toBe(38_100);
  expect(readLength("25", "mm")).toBe(25_000);
  expect(readLength("0.0005", "mm")).toBe(1);
  expect(readLength(".5", "in")).toBe(12_700);
});

test("inches are read in fractions, as makers of sheets write them", () => {
  for (const text of ["2 5/8", "2-5/8", "2.625"]) expect(readLength(text, "in")).toBe(66_675);
  expect(readLength("1/2", "in")).toBe(12_700);
  expect(readLength("1/32", "in")).toBe(794);
});

test("what is no length is refused", () => {
  for (const text of ["", "-3", "1/0", "a", "1.2.3", "1,000,5", "3 mm", "1e3"]) {
    expect([text, readLength(text, "mm")]).toEqual([text, null]);
  }
});

test("every length is shown so that it is read back as it was", () => {
  for (const unit of ["mm", "in"] as const) {
    for (let um = 1_000; um < 300_000; um += 137) {
      expect(readLength(showLength(um, unit, "de"), unit)).toBe(um);
    }
  }
  expect(showLength(66_675, "in", "en")).toBe("2.625");
  expect(showLength(63_500, "mm", "de")).toBe("63,5");
  expect(showLength(210_000, "mm", "en")).toBe("210");
});

test("a page of North America is measured in inches, one of ISO 216 in millimetres", () => {
  expect(unitOfPage(215_900)).toBe("in");
  expect(unitOfPage(210_000)).toBe("mm");
  expect(unitOfPage(148_000)).toBe("mm");
});
