import { describe, expect, test } from "@jest/globals";
import { gmnCheckPair } from "./gmn.ts";
import { readLabel } from "./index.ts";

// The first is the value of the GS1 General Specifications; the others are published test values of
// the reference routine for the check pair (GS1 Barcode Syntax Dictionary).
const PUBLISHED = [
  "1987654Ad4X4bL5ttr2310c2K",
  "12345678901234567890123NT",
  "12345_ABCDEFGHIJKLMCP",
  "12345_abcdefghijklmN3",
  "12345_!\"%&'()*+,-./LC",
  "12345_0123456789:;<=>?62",
  "7907665Bm8v2AB",
  "99999zzzzzzzzzzzzzzzzzzT2",
];

describe("the check pair of a device model number", () => {
  test.each(PUBLISHED)("of %s is its last two characters", (model) => {
    expect(gmnCheckPair(model.slice(0, -2))).toBe(model.slice(-2));
    expect(readLabel(`]d28013${model}`, { today: "2026-06-15" }).ok).toBe(true);
  });

  test("is refused when two characters changed places", () => {
    const result = readLabel("]d280131987654Ad4X4bL5ttr2310cK2", { today: "2026-06-15" });
    expect(result).toMatchObject({
      error: { kind: "invalid_check_character", at: 30, length: 2, ai: "8013" },
    });
  });

  test.each(["a b", "#", "x".repeat(24)])("of %j does not exist", (text) => {
    expect(gmnCheckPair(text)).toBeUndefined();
  });
});
