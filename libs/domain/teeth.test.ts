import { describe, expect, test } from "@jest/globals";
import {
  describeTooth,
  fromPalmer,
  fromUniversal,
  isTooth,
  readToothIn,
  showToothIn,
  toPalmer,
  toUniversal,
} from "./teeth.ts";

// ISO 3950 two-digit codes, ADA Universal and Palmer, checked against the order of the tooth value
// set of HL7 Dental Data Exchange, which is the order of the Universal notation.
const permanent = `
18 1 UR8, 17 2 UR7, 16 3 UR6, 15 4 UR5, 14 5 UR4, 13 6 UR3, 12 7 UR2, 11 8 UR1,
21 9 UL1, 22 10 UL2, 23 11 UL3, 24 12 UL4, 25 13 UL5, 26 14 UL6, 27 15 UL7, 28 16 UL8,
38 17 LL8, 37 18 LL7, 36 19 LL6, 35 20 LL5, 34 21 LL4, 33 22 LL3, 32 23 LL2, 31 24 LL1,
41 25 LR1, 42 26 LR2, 43 27 LR3, 44 28 LR4, 45 29 LR5, 46 30 LR6, 47 31 LR7, 48 32 LR8`;
const primary = `
55 A URE, 54 B URD, 53 C URC, 52 D URB, 51 E URA, 61 F ULA, 62 G ULB, 63 H ULC, 64 I ULD, 65 J ULE,
75 K LLE, 74 L LLD, 73 M LLC, 72 N LLB, 71 O LLA, 81 P LRA, 82 Q LRB, 83 R LRC, 84 S LRD, 85 T LRE`;

function readTable(table: string): readonly [string, string, string][] {
  return table.split(",").map((line) => {
    const [fdi = "", universal = "", palmer = ""] = line.trim().split(" ");
    return [fdi, universal, palmer];
  });
}
const teeth = [...readTable(permanent), ...readTable(primary)];
const twoDigits = Array.from({ length: 100 }, (_, number) => String(number).padStart(2, "0"));

describe("teeth", () => {
  test("are the 52 codes of ISO 3950 and no other two digits", () => {
    expect(twoDigits.filter(isTooth)).toEqual(teeth.map(([fdi]) => fdi).sort());
    expect(teeth).toHaveLength(52);
  });

  test.each(["", "1", "19", "10", "56", "86", "99", "111", "1 1", "A", "UR8", "11\n"])(
    "%j is no tooth",
    (text) => {
      expect(isTooth(text)).toBe(false);
      expect(describeTooth(text)).toBeNull();
      expect(toUniversal(text)).toBeNull();
      expect(toPalmer(text)).toBeNull();
    },
  );

  test.each(teeth)("%s is Universal %s and Palmer %s, both ways", (fdi, universal, palmer) => {
    expect(toUniversal(fdi)).toBe(universal);
    expect(fromUniversal(universal)).toBe(fdi);
    expect(fromUniversal(universal.toLowerCase())).toBe(fdi);
    expect(toPalmer(fdi)).toBe(palmer);
    expect(fromPalmer(palmer.toLowerCase())).toBe(fdi);
  });

  test.each(["0", "33", "U", "01", "", "US", "83", "50"])("Universal has no %j", (text) => {
    expect(fromUniversal(text)).toBeNull();
  });

  test("eighteen bare codes are valid in both notations and always name different teeth", () => {
    const isPlain = (code: string) => fromUniversal(code)?.length === 2;
    const both = twoDigits.filter((code) => isTooth(code) && isPlain(code));
    expect(both.join(" ")).toBe("11 12 13 14 15 16 17 18 21 22 23 24 25 26 27 28 31 32");
    expect(both.filter((code) => fromUniversal(code) === code)).toEqual([]);
    expect([toUniversal("18"), fromUniversal("18")]).toEqual(["1", "37"]);
  });

  test("are described from the patient's own side", () => {
    expect(describeTooth("36")).toEqual({
      fdi: "36",
      dentition: "permanent",
      arch: "lower",
      side: "left",
      position: 6,
      class: "first-molar",
      supernumerary: false,
    });
    expect(describeTooth("75")).toMatchObject({
      dentition: "primary",
      arch: "lower",
      side: "left",
      class: "second-molar",
    });
    expect(describeTooth("13")).toMatchObject({ arch: "upper", side: "right", class: "canine" });
    expect(describeTooth("48")).toMatchObject({ side: "right", class: "third-molar" });
    expect(describeTooth("84")).toMatchObject({ side: "right", class: "first-molar" });
    expect(describeTooth("24")).toMatchObject({ side: "left", class: "first-premolar" });
  });

  // The ADA's convention for claims: 50 more for permanent teeth, an S for primary ones. From
  // memory.
  test.each([
    ["18S", "51", "UR8S"],
    ["48S", "82", "LR8S"],
    ["55S", "AS", "URES"],
    ["85S", "TS", "LRES"],
  ])(
    "%s, one too many beside its tooth, is Universal %s and Palmer %s",
    (fdi, universal, palmer) => {
      expect(describeTooth(fdi)).toMatchObject({ fdi, supernumerary: true });
      expect(toUniversal(fdi)).toBe(universal);
      expect(fromUniversal(universal)).toBe(fdi);
      expect(toPalmer(fdi)).toBe(palmer);
      expect(fromPalmer(palmer)).toBe(fdi);
    },
  );

  test("are shown and read in the notation of a practice, and nothing else is", () => {
    for (const [fdi, universal, palmer] of teeth) {
      expect(showToothIn("universal", fdi)).toBe(universal);
      expect(readToothIn("palmer", ` ${palmer.toLowerCase()} `)).toBe(fdi);
      expect(readToothIn("fdi", showToothIn("fdi", fdi))).toBe(fdi);
    }
    expect(showToothIn("universal", "all")).toBe("all");
    expect(readToothIn("fdi", "19")).toBeNull();
    expect(readToothIn("universal", "UR8")).toBeNull();
  });
});
