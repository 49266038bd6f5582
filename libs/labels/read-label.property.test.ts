import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { hibcCheckCharacter, readLabel, type LabelResult } from "./index.ts";
import { compatibleElements, validValue } from "./samples.fixture.ts";

/** What comes back from the other forms, and how the time grows; the rest is many.property. */

function read(raw: string | readonly string[]): LabelResult {
  return readLabel(raw, { today: "2026-06-15", gsTokens: ["~1"] });
}

describe("random valid data", () => {
  test("come back from the printed form when they hold no brackets", () => {
    const plain = compatibleElements.filter((all) => !all.some(({ value }) => /[()]/.test(value)));
    fc.assert(
      fc.property(plain, (elements) => {
        const raw = elements.map(({ ai, value }) => `(${ai}) ${value}`).join(" ");
        const result = read(raw);
        expect(result.ok && result.elements).toEqual(elements);
      }),
      { numRuns: 1000 },
    );
  });

  test("come back from a Digital Link, whatever is percent-encoded", () => {
    const values = ["01", "10", "21", "17"].map(validValue);
    fc.assert(
      fc.property(fc.tuple(...values), ([gtin = "", lot = "", serial = "", expiry = ""]) => {
        const escape = (text: string) =>
          text.replaceAll(
            /[^A-Za-z0-9]/g,
            (it) => `%${it.charCodeAt(0).toString(16).padStart(2, "0")}`,
          );
        const path = `/01/${gtin}/10/${escape(lot)}/21/${escape(serial)}`;
        const result = read(`https://example.com${path}?17=${expiry}`);
        expect(result).toMatchObject({ ok: true, fields: { gtin, lot, serial } });
      }),
      { numRuns: 1000 },
    );
  });
});

/** Processor time in microseconds, not time on the wall, which other programs lengthen. */
function timeOf(inputs: readonly (string | string[])[], repeats: number): number {
  const before = process.cpuUsage();
  for (let n = 0; n < repeats; n += 1) for (const input of inputs) read(input);
  const { user, system } = process.cpuUsage(before);
  return user + system;
}

/**
 * By how much the time grows when the text grows fourfold: four where it is in proportion, sixteen
 * where it is in proportion to the square. A busy machine disturbs one measurement or another, so
 * the least of several is taken, and no more than are needed.
 */
function growthOf(inputsOf: (times: number) => (string | string[])[]): number {
  const [small, large] = [inputsOf(1), inputsOf(4)];
  let repeats = 1;
  while (timeOf(small, repeats) < 1000) repeats *= 2;
  let least = Infinity;
  for (let attempt = 0; attempt < 8 && least > 6; attempt += 1) {
    least = Math.min(least, timeOf(large, repeats) / Math.max(1, timeOf(small, repeats)));
  }
  return least;
}

const MOST_GROWTH = 9;

describe("the time for a text", () => {
  const starts = ["", "]d2", "]d20109506000134352", "https://a/", "+A9991", "(01)"];
  test.each([
    "A",
    "\r\n",
    " ",
    "(",
    "(01)",
    "(10)A",
    "(99) ",
    "(04)",
    "{GS}",
    "{GS}10A",
    "^]",
    "\u001d",
    "]d2",
    "17261231",
    "10A\u001d",
    "4300A\u001d",
    "10<GS>\u001d",
    "+",
    "/S",
    "%2F",
    "https://a/01/",
    "/10/A",
    "?17=1&",
    "*",
    "<GS>",
    "[)>\u001e06\u001d",
    "\u001d1TA",
    "=",
    "\u00e9",
    "\u{1f9b7}",
  ])("made of %j grows as the text does", (piece) => {
    // Within the length of the largest symbol, beyond which nothing is read any more.
    const inputsOf = (times: number) =>
      starts.map((start) => start + piece.repeat((2000 * times) / piece.length));
    expect(growthOf(inputsOf)).toBeLessThan(MOST_GROWTH);
  });

  test.each(["A", "\r\n"])("of a hundred thousand %j and more grows as it does", (piece) => {
    const inputsOf = (times: number) => [piece.repeat(100_000 * times)];
    expect(growthOf(inputsOf)).toBeLessThan(MOST_GROWTH);
  });

  test.each([
    ["HIBC supplements", "+A99911/$L", "/S1", ""],
    ["a pharmacy product number", "[)>\u001e06\u001d9N111234567842", "\u001d1TA", "\u001e\u0004"],
  ])("of %s, which is valid to its end, grows as it does", (_, start, piece, end) => {
    const inputsOf = (times: number) => {
      const text = start + piece.repeat((2000 * times) / piece.length) + end;
      return [text + (start.startsWith("+") ? hibcCheckCharacter(text) : "")];
    };
    expect(read(inputsOf(1)[0] ?? "").ok).toBe(true);
    expect(growthOf(inputsOf)).toBeLessThan(MOST_GROWTH);
  });

  test.each([
    ["10A\u001d", "10A\u001d"],
    ["99A\u001d", "10B\u001d"],
    ["17261231", "+A9991/$X"],
  ])("of many scans of %j, then %j, grows as they do", (piece, then) => {
    const inputsOf = (times: number) => [
      Array.from({ length: 64 }, (_, scan) => {
        const made = scan < 32 ? piece : then;
        return `]C1${made.repeat((500 * times) / made.length)}`;
      }),
    ];
    expect(growthOf(inputsOf)).toBeLessThan(MOST_GROWTH);
  });
});
