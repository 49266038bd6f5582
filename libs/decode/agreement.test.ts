import { describe, expect, test } from "@jest/globals";
import { Agreement } from "./agreement.ts";
import type { RawRead, SymbolFormat } from "./reader.ts";

const read = (text: string, format: SymbolFormat = "EAN13"): RawRead => ({
  text,
  format,
  corners: [],
});
const nothing = (): boolean => false;
const ean = read("]E09506000134352");

describe("a linear symbol", () => {
  test("counts when two passes give the same text", () => {
    const agreement = new Agreement(nothing, 2000);
    expect(agreement.judge([[ean]], 0)).toEqual([{ ...ean, sure: false }]);
    expect(agreement.judge([[ean]], 100)).toEqual([{ ...ean, sure: true }]);
  });

  test("counts when two passes over one picture agree, and is told once", () => {
    expect(new Agreement(nothing, 0).judge([[ean], [ean]], 0)).toEqual([{ ...ean, sure: true }]);
  });

  test("does not count for texts that one pass gives, however often", () => {
    const agreement = new Agreement(nothing, 2000);
    const other = read("]E09506000134369");
    expect(agreement.judge([[ean, ean, other]], 0).map(({ sure }) => sure)).toEqual([false, false]);
  });

  test("needs more when it reads as no label", () => {
    const agreement = new Agreement(nothing, 2000);
    // A GTIN whose check digit is wrong, and an element that does not exist.
    const strange = [read("]C10109506000134353", "Code128"), read("]C12759BZ", "Code128")];
    for (const sure of [false, false, false, true]) {
      expect(agreement.judge([strange], 0).map((one) => one.sure)).toEqual([sure, sure]);
    }
  });

  test("is forgotten when it is not seen again in time", () => {
    const agreement = new Agreement(nothing, 2000);
    agreement.judge([[ean]], 0);
    expect(agreement.judge([[ean]], 2001)).toEqual([{ ...ean, sure: false }]);
    expect(agreement.judge([[ean]], 4001)).toEqual([{ ...ean, sure: true }]);
  });

  test("counts at once when the caller knows it", () => {
    const agreement = new Agreement((text) => text === ean.text, 2000);
    const [known, other] = agreement.judge([[ean, read("]C0ABC", "Code128")]], 0);
    expect([known?.sure, other?.sure]).toEqual([true, false]);
  });
});

test("a matrix symbol counts at once", () => {
  const agreement = new Agreement(nothing, 2000);
  const reads = [read("]d210LOT", "DataMatrix"), read("]Q1A", "QRCode")];
  expect(agreement.judge([reads], 0).map(({ sure }) => sure)).toEqual([true, true]);
});
