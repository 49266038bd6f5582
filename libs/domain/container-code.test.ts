import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import {
  containerCodeCount,
  makeContainerCode,
  readContainerCode,
  showContainerCode,
} from "./container-code.ts";

const counters = fc.integer({ min: 0, max: containerCodeCount - 1 });
const characters = Array.from("123456789ABCDEFGHJKMNPQRSTVWXYZ");

/** Every code that differs from `code` in one of its last six places. */
function listSubstitutions(code: string): readonly string[] {
  return [1, 2, 3, 4, 5, 6].flatMap((place) =>
    characters
      .filter((character) => character !== code[place])
      .map((character) => code.slice(0, place) + character + code.slice(place + 1)),
  );
}

/** Every code with two unequal neighbours swapped, the leading C among them. */
function listSwaps(code: string): readonly string[] {
  return [0, 1, 2, 3, 4, 5].flatMap((place) => {
    const [first = "", second = ""] = [code[place], code[place + 1]];
    return first === second ? [] : code.slice(0, place) + second + first + code.slice(place + 2);
  });
}

describe("container code", () => {
  test("reads back what it made", () => {
    fc.assert(
      fc.property(counters, (counter) => {
        const code = makeContainerCode(counter);
        expect(code).toMatch(/^C[1-9A-HJKMNP-TV-Z]{6}$/);
        expect(readContainerCode(code)).toEqual({ ok: true, code });
      }),
    );
  });

  test("gives the first hundred thousand containers different codes", () => {
    const codes = new Set(
      Array.from({ length: 100_000 }, (_, counter) => makeContainerCode(counter)),
    );
    expect(codes.size).toBe(100_000);
  });

  test("never repeats a code", () => {
    // Counters are spread by a factor. Were it a multiple of the prime 31, the only way for two of
    // them to meet, then counters a multiple of 31 to the fourth apart would have met already.
    const codes = Array.from({ length: 31 }, (_, step) => makeContainerCode(7 + step * 31 ** 4));
    expect(new Set(codes).size).toBe(31);
  });

  test("gives neighbours on the shelf codes that differ early", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: containerCodeCount - 2 }), (counter) => {
        const [one, next] = [makeContainerCode(counter), makeContainerCode(counter + 1)];
        expect(one.slice(0, 2)).not.toBe(next.slice(0, 2));
      }),
    );
  });

  test("refuses every single wrong character, tried exhaustively", () => {
    for (let counter = 0; counter < 2000; counter += 1) {
      const read = listSubstitutions(makeContainerCode(counter * 14_000)).filter(
        (wrong) => readContainerCode(wrong).ok,
      );
      expect(read).toEqual([]);
    }
  });

  test("refuses every swap of neighbours, tried exhaustively", () => {
    let tried = 0;
    for (let counter = 0; counter < 20_000; counter += 1) {
      const swaps = listSwaps(makeContainerCode(counter * 1400));
      tried += swaps.length;
      expect(swaps.filter((wrong) => readContainerCode(wrong).ok)).toEqual([]);
    }
    expect(tried).toBeGreaterThan(100_000);
  });

  test("refuses every pair of values in every place, which is the whole proof", () => {
    // The sum is linear, so an error is seen exactly when weight × difference is not 0 modulo 31.
    for (const weight of [6, 5, 4, 3, 2, 1]) {
      for (let difference = 1; difference < 31; difference += 1) {
        expect((weight * difference) % 31).not.toBe(0);
      }
    }
  });

  test("is read in lower case, with spaces and hyphens between, and with I or L for 1", () => {
    const code = makeContainerCode(0);
    expect(code).toBe("C111111");
    expect(readContainerCode(" c11-1 1 1-1 ")).toEqual({ ok: true, code });
    expect(readContainerCode("cIl1Ll1")).toEqual({ ok: true, code });
  });

  test.each([
    "",
    "C",
    "C11111",
    "C1111111",
    "D111111",
    "C11111O",
    "C1111 U1",
    "C11111é",
    "111111C",
  ])("%j is no code", (text) => {
    expect(readContainerCode(text)).toEqual({ ok: false });
  });

  test.each([-1, 0.5, Number.NaN, containerCodeCount])(
    "there is none for counter %p",
    (counter) => {
      expect(() => makeContainerCode(counter)).toThrow(RangeError);
    },
  );

  test("is shown in two groups, and anything else as it is", () => {
    expect(showContainerCode("CK7QW4X")).toBe("CK7-QW4X");
    expect(showContainerCode("bottle 3")).toBe("bottle 3");
    fc.assert(
      fc.property(counters, (counter) => {
        const code = makeContainerCode(counter);
        expect(readContainerCode(showContainerCode(code))).toEqual({ ok: true, code });
      }),
    );
  });
});
