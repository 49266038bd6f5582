import { describe, expect, test } from "@jest/globals";
import { readIdentified } from "./script-identifier.ts";

const GS = "\u001d";
const code = (...codewords: number[]): Uint8Array => Uint8Array.from(codewords);

// Values of codewords: ISO/IEC 15417 (Code 128), 16022 (DataMatrix) and 18004 (QR), from memory.
describe("the identifier of a symbol read without WebAssembly", () => {
  test("of Code 128 needs FNC1 right behind the start character", () => {
    expect(readIdentified("Code128", "]C10109506000134352", code(105, 102, 1, 9))).toBe(
      "]C10109506000134352",
    );
    expect(readIdentified("Code128", "+A123", code(104, 11, 33))).toBe("]C0+A123");
  });

  test("of Code 128 is refused when FNC1 stands elsewhere than it says", () => {
    expect(readIdentified("Code128", "]C1010950600", code(104, 99, 102))).toBeUndefined();
    expect(readIdentified("Code128", `A${GS}10LOT`, code(104, 33, 102))).toBeUndefined();
    expect(readIdentified("Code128", "10LOT", code(105, 102, 10))).toBeUndefined();
  });

  test("of an element string without FNC1 is the plain one, which the label reader refuses", () => {
    expect(readIdentified("Code128", "010950600013435210A", code(105, 1, 9))).toBe(
      "]C0010950600013435210A",
    );
    expect(readIdentified("DataMatrix", "010950600013435210A", code(131, 139))).toBe(
      "]d1010950600013435210A",
    );
    expect(readIdentified("QRCode", "010950600013435210A", code(0x20, 0x98))).toBe(
      "]Q1010950600013435210A",
    );
  });

  test("of DataMatrix takes the first separator for FNC1 only when the first codeword is", () => {
    expect(readIdentified("DataMatrix", `${GS}10AB${GS}21C`, code(232, 140, 66))).toBe(
      `]d210AB${GS}21C`,
    );
    expect(readIdentified("DataMatrix", `${GS}10AB`, code(30, 140, 66))).toBe(`]d1${GS}10AB`);
    expect(readIdentified("DataMatrix", `A${GS}10AB`, code(66, 232, 140))).toBeUndefined();
  });

  test("of DataMatrix is refused where parts follow or the character set changes", () => {
    expect(readIdentified("DataMatrix", "AB", code(233, 1, 1, 66))).toBeUndefined();
    expect(readIdentified("DataMatrix", "AB", code(66, 241, 27, 67))).toBeUndefined();
    expect(readIdentified("DataMatrix", "AB", code(230, 91, 11, 254, 241, 27))).toBeUndefined();
    expect(readIdentified("DataMatrix", "AB", code(231, 44, 241))).toBeUndefined();
  });

  test("of DataMatrix is not refused for a number that means a change only elsewhere", () => {
    expect(readIdentified("DataMatrix", "YYYYYY", code(230, 241, 241, 241, 9))).toBe("]d1YYYYYY");
    expect(readIdentified("DataMatrix", "A", code(66, 129, 241))).toBe("]d1A");
  });

  test("of a QR code follows its mode", () => {
    expect(readIdentified("QRCode", "10AB", code(0x51, 0))).toBe("]Q310AB");
    expect(readIdentified("QRCode", "https://a/", code(0x40, 0xa6))).toBe("]Q1https://a/");
    expect(readIdentified("QRCode", "10AB", code(0x70, 0x1a))).toBeUndefined();
    expect(readIdentified("QRCode", "10AB", code(0x90, 0))).toBeUndefined();
    expect(readIdentified("QRCode", `10AB${GS}21C`, code(0x40, 0))).toBeUndefined();
  });

  test("of Code 39 tells whether the last character checks the others", () => {
    expect(readIdentified("Code39", "+A123BJC5D6E71G", null)).toBe("]A1+A123BJC5D6E71G");
    expect(readIdentified("Code39", "+A123BJC5D6E71F", null)).toBe("]A0+A123BJC5D6E71F");
  });

  test("is refused for what the library may have garbled, and for nothing", () => {
    expect(readIdentified("DataMatrix", "LÃ¶t", code(77, 235))).toBeUndefined();
    expect(readIdentified("QRCode", "", code(0x40, 0))).toBeUndefined();
    expect(readIdentified("EAN13", "950600013435", null)).toBeUndefined();
    expect(readIdentified("DataMatrix", "AB", null)).toBeUndefined();
  });
});
