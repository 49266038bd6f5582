import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { canonicalJson } from "./canonical-json.ts";

const tenth = 0.1;

describe("canonical JSON", () => {
  test("writes the sample of RFC 8785, section 3.2.2, as section 3.2.4 prints it", () => {
    const sample: unknown = JSON.parse(`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
      "literals": [null, true, false]
    }`);
    const written = canonicalJson(sample);
    expect(written).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
    expect(Buffer.from(written, "utf8").toString("hex")).toBe(
      "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a" +
        "5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d32375d" +
        "2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d",
    );
  });

  test("sorts members by UTF-16 code units, as the sample of RFC 8785, section 3.2.3", () => {
    const sample = {
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis",
    };
    expect(Object.values(JSON.parse(canonicalJson(sample)) as Record<string, string>)).toEqual([
      // An object lists a member named by a number first, whatever the text says.
      "One",
      "Carriage Return",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
    expect(canonicalJson(sample).startsWith('{"\\r":"Carriage Return","1":"One",')).toBe(true);
  });

  test.each([
    // RFC 8785, Appendix B (from memory).
    [-0, "0"],
    [5e-324, "5e-324"],
    [1.7976931348623157e308, "1.7976931348623157e+308"],
    [9007199254740992, "9007199254740992"],
    [1e21, "1e+21"],
    [1e23, "1e+23"],
    [999999999999999700000, "999999999999999700000"],
    [tenth + 0.2, "0.30000000000000004"],
  ])("writes the number %p as %s", (number, text) => {
    expect(canonicalJson(number)).toBe(text);
  });

  test("is the same however the members were put in, and reads back as the same value", () => {
    const shuffle = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(shuffle);
      if (typeof value !== "object" || value === null) return value;
      const entries = Object.entries(value).map(([key, member]) => [key, shuffle(member)] as const);
      return Object.fromEntries(entries.reverse());
    };
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const plain: unknown = JSON.parse(JSON.stringify(value));
        const text = canonicalJson(plain);
        expect(JSON.parse(text)).toEqual(plain);
        expect(canonicalJson(shuffle(plain))).toBe(text);
        expect(canonicalJson(JSON.parse(text))).toBe(text);
      }),
    );
  });

  test("leaves out a member that is undefined", () => {
    expect(canonicalJson({ b: 1, a: undefined })).toBe('{"b":1}');
  });

  test.each([
    ["a number that is not finite", Number.NaN],
    ["infinity", { deep: [Number.POSITIVE_INFINITY] }],
    ["undefined", undefined],
    ["undefined in a list", [undefined]],
    ["a hole in a list", Array<number>(1)],
    ["a big integer", 1n],
    ["a function", { f: () => 1 }],
    ["a date", new Date(0)],
    ["a map", new Map()],
    ["half a surrogate pair", "\ud83d"],
    ["half a surrogate pair in a name", { "\udc00": 1 }],
  ])("refuses %s", (_, value) => {
    expect(() => canonicalJson(value)).toThrow(TypeError);
  });
});
