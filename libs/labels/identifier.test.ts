import { describe, expect, test } from "@jest/globals";
import { identifierOf, lotLookAlikeKey, normaliseLot, readLabel } from "./index.ts";

describe("the device identifier of a label", () => {
  test.each([
    ["]E496385074", { scheme: "gs1-gtin", value: "00000096385074" }],
    ["]d2010950600013435210A", { scheme: "gs1-gtin", value: "09506000134352" }],
    ["+A123BJC5D6E71G", { scheme: "hibc", value: "A123BJC5D6E71" }],
    ["+A99912345/$$52001510X33", { scheme: "hibc", value: "A99912345" }],
    ["+$$52001510X3GD", undefined],
    ["]C1001061414123456789080209506000134352" + "3724", undefined],
  ])("%s is %j", (raw, expected) => {
    const result = readLabel(raw, { today: "2026-06-15" });
    expect(result.ok).toBe(true);
    expect(result.ok && identifierOf(result.fields)).toEqual(expected);
  });
});

describe("a lot", () => {
  test.each([
    ["ab-12 c", "AB12C"],
    ["A/B_1.2+3", "AB123"],
    ["l\u00f6t\u20111", "L\u00d6T1"],
    ["---", "---"],
    ["", ""],
  ])("%j is compared as %j", (lot, expected) => {
    expect(normaliseLot(lot)).toBe(expected);
  });

  test.each([
    ["LOT-0I5", "10T015"],
    ["ZB8G6", "ZBBGG"],
    ["QD1", "00I"],
    ["b 8 z", "8-8-2"],
  ])("%s looks like %s", (one, other) => {
    expect(lotLookAlikeKey(one)).toBe(lotLookAlikeKey(other));
  });

  test.each([
    ["ABC1", "ABC2"],
    ["A1", "A11"],
    ["V1", "U1"],
  ])("%s does not look like %s", (one, other) => {
    expect(lotLookAlikeKey(one)).not.toBe(lotLookAlikeKey(other));
  });
});
