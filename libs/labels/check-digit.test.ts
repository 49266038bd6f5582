import { describe, expect, test } from "@jest/globals";
import { gtinCheckDigit, isValidGtin, toGtin14 } from "./index.ts";

describe("the check digit of GS1 keys", () => {
  // Published keys: FDA UDI formats v1.3 (51022222233336), GS1 Digital Link URI Syntax
  // (09520123456788), GS1's reserved example prefixes (952...), the textbook UPC-A 036000291452.
  test.each([
    ["5102222223333", 6],
    ["0952012345678", 8],
    ["950600013435", 2],
    ["61414199999", 6],
    ["03600029145", 2],
    ["9638507", 4],
    ["10614141234567890", 8],
    ["950600013437", 6],
  ])("of %s is %i", (digits, expected) => {
    expect(gtinCheckDigit(digits)).toBe(expected);
  });

  test.each(["", "12A4", "12 4", "١٢٣"])("of %j does not exist", (text) => {
    expect(gtinCheckDigit(text)).toBeNaN();
  });
});

describe("a GTIN", () => {
  test.each(["96385074", "614141999996", "9506000134352", "09506000134352", "51022222233336"])(
    "%s is valid and keeps its check digit at 14 digits",
    (gtin) => {
      expect(isValidGtin(gtin)).toBe(true);
      expect(toGtin14(gtin)).toHaveLength(14);
      expect(isValidGtin(toGtin14(gtin) ?? "")).toBe(true);
    },
  );

  test.each([
    "",
    "9506000134353",
    "950600013435",
    "009506000134352",
    "950600013435X",
    " 9506000134352",
    "51022222233363",
  ])("%j is none", (text) => {
    expect(isValidGtin(text)).toBe(false);
    expect(toGtin14(text)).toBeUndefined();
  });

  test("is filled with zeros on the left", () => {
    expect(toGtin14("036000291452")).toBe("00036000291452");
  });
});
