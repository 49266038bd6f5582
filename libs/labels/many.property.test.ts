import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { HIBC_IN_ORDER, SET_82_IN_ORDER } from "./character-sets.ts";
import { randomScan } from "./fuzz.fixture.ts";
import { ppnCheckDigits } from "./ifa.ts";
import {
  encodeElementString,
  gtinCheckDigit,
  hibcCheckCharacter,
  readLabel,
  type LabelResult,
} from "./index.ts";
import type { Random } from "./random.fixture.ts";
import { HIBC_LETTERS, randomElements, randomValue, seeded } from "./samples.fixture.ts";

const LEAST_CASES = 200_000;
const DIGITS = "0123456789";
let tried = 0;

function read(raw: string | readonly string[]): LabelResult {
  return readLabel(raw, { today: "2026-06-15" });
}

/** Tries so many random cases; the first that does not hold is told with its seed. */
function holds<Case>(runs: number, make: (random: Random) => Case, isTrue: (it: Case) => boolean) {
  const counted = fc.property(seeded(make), (it) => {
    tried += 1;
    return isTrue(it);
  });
  fc.assert(counted, { numRuns: runs });
}

/** The text with one character exchanged for another one of those given. */
function mutated(random: Random, text: string, characters: string): string {
  const at = random.below(text.length);
  let other = text.charAt(at);
  while (other === text.charAt(at)) other = random.text(characters, 1);
  return text.slice(0, at) + other + text.slice(at + 1);
}

function randomHibc(random: Random) {
  const unit = random.below(10);
  const device = { lic: random.pick(["A999", "J123"]), pcn: random.text(HIBC_LETTERS, 1, 18) };
  const [lot, serial] = [random.text(HIBC_LETTERS, 1, 18), random.text(HIBC_LETTERS, 1, 18)];
  const [expiry, made] = [randomValue("7250", random), randomValue("7250", random)];
  const quantity = random.below(100_000);
  const dated = random.pick([
    { written: `$$3${expiry.slice(2)}`, hasExpiry: true },
    { written: "$$7", hasExpiry: false },
    { written: "$", hasExpiry: false },
  ]);
  const body =
    `+${device.lic}${device.pcn}${unit}/${dated.written}${lot}` +
    `/S${serial}/16D${made}/Q${quantity}`;
  const expected = { ...device, unit_of_measure: unit, lot, serial, quantity };
  return { raw: body + (hibcCheckCharacter(body) ?? ""), expected, expiry, made, ...dated };
}

const isoDate = (digits: string, century = digits.slice(0, 2)): string =>
  `${century}${digits.slice(2, 4)}-${digits.slice(4, 6)}-${digits.slice(6)}`;

describe("valid data", () => {
  test("of any AIs come back as they were written", () => {
    const make = (random: Random) => {
      const elements = randomElements(random);
      return { elements, raw: random.pick(["]d2", "]C1", "]e0"]) + encodeElementString(elements) };
    };
    holds(60_000, make, ({ elements, raw }) => {
      const result = read(raw);
      if (!result.ok || result.elements.length !== elements.length) return false;
      return elements.every(({ ai, value }, index) => {
        const element = result.elements[index];
        return element?.ai === ai && element.value === value;
      });
    });
  });

  test("of one AI may be split over two symbols, in any order", () => {
    const make = (random: Random) => {
      const [lot, gtin] = [randomValue("10", random), randomValue("01", random)];
      const scans = [`]C101${gtin}`, `]C110${lot}`];
      return { lot, gtin, scans: random.below(2) === 0 ? scans : scans.reverse() };
    };
    holds(10_000, make, ({ lot, gtin, scans }) => {
      const result = read(scans);
      return result.ok && result.fields.lot === lot && result.fields.gtin === gtin;
    });
  });

  test("of an HIBC label come back as they were written", () => {
    holds(20_000, randomHibc, ({ raw, expected, expiry, made, hasExpiry }) => {
      const result = read(raw);
      if (!result.ok) return false;
      const { fields } = result;
      const told = { ...fields, ...expected };
      return (
        JSON.stringify(told) === JSON.stringify(fields) &&
        fields.production?.date === isoDate(made) &&
        // Two digits of the year: the century of 10 to 60 is this one.
        fields.expiry?.date === (hasExpiry ? isoDate(expiry, "20") : undefined)
      );
    });
  });
});

describe("one character exchanged", () => {
  // Of each value the digits that its check digit covers (GS1 General Specifications 7.9.1).
  const checked: readonly (readonly [ai: string, digits: number])[] = [
    ["00", 18],
    ["01", 14],
    ["02", 14],
    ["03", 14],
    ["253", 13],
    ["255", 13],
    ["402", 17],
    ["410", 13],
    ["414", 13],
    ["415", 13],
    ["417", 13],
    ["8003", 14],
    ["8006", 14],
    ["8017", 18],
    ["8018", 18],
    ["8026", 14],
  ];
  test("in the checked digits of a GS1 key is refused", () => {
    const make = (random: Random) => {
      const [ai, end] = random.pick(checked);
      const value = randomValue(ai, random);
      const characters = random.pick([DIGITS, SET_82_IN_ORDER]);
      const digits = mutated(random, value.slice(0, end), characters);
      return { ai, raw: `]d2${ai}${digits}${value.slice(end)}` };
    };
    holds(50_000, make, ({ ai, raw }) => {
      const result = read(raw);
      return !result.ok && result.error.ai === ai;
    });
  });

  test("in a model number, check pair and all, is refused", () => {
    const make = (random: Random) => {
      const ai = random.pick(["8013", "8014"]);
      return { ai, raw: `]d2${ai}${mutated(random, randomValue(ai, random), SET_82_IN_ORDER)}` };
    };
    holds(20_000, make, ({ ai, raw }) => {
      const result = read(raw);
      return !result.ok && result.error.ai === ai;
    });
  });

  test("in a bare GTIN is refused, and never read as something else", () => {
    const make = (random: Random) => {
      const digits = random.text(DIGITS, random.pick([7, 11, 12, 13]));
      return mutated(random, `${digits}${gtinCheckDigit(digits)}`, DIGITS);
    };
    holds(20_000, make, (raw) => {
      const result = read(raw);
      return !result.ok && result.error.kind === "invalid_check_digit";
    });
  });

  test("in an HIBC label is refused", () => {
    const make = (random: Random) => mutated(random, randomHibc(random).raw, HIBC_IN_ORDER);
    holds(30_000, make, (raw) => !read(raw).ok);
  });

  test("in a pharmacy product number is refused", () => {
    const make = (random: Random) => {
      const product = `11${random.text(HIBC_LETTERS, 3, 18)}`;
      const ppn = mutated(random, product + ppnCheckDigits(product), SET_82_IN_ORDER);
      return `[)>\u001e06\u001d9N${ppn}\u001d1TLOT\u001e\u0004`;
    };
    holds(10_000, make, (raw) => !read(raw).ok);
  });
});

describe("any text whatever", () => {
  /** The span lies within the text and cuts no character in two. */
  function marksWhole(raw: string, { at, length }: { at: number; length: number }): boolean {
    if (at < 0 || length < 0 || at + length > raw.length) return false;
    const isCut = (place: number): boolean => (raw.codePointAt(place - 1) ?? 0) > 0xffff;
    return !(at > 0 && isCut(at)) && !(length > 0 && isCut(at + length));
  }

  test("is answered, with the raw text kept and the span of an error inside it", () => {
    const make = (random: Random) => ({ raw: randomScan(random), enforce: random.below(2) === 0 });
    holds(30_000, make, ({ raw, enforce }) => {
      const associations = enforce ? "enforce" : "defer";
      const options = { today: "2026-06-15", associations, gsTokens: ["~1", ""] } as const;
      const result = readLabel(raw, options);
      return result.raw === raw && (result.ok || marksWhole(raw, result.error));
    });
  });

  test("in several scans is answered, and an error names one of them", () => {
    const make = (random: Random) =>
      Array.from({ length: random.below(5) }, () => randomScan(random));
    holds(10_000, make, (scans) => {
      const result = read(scans);
      if (result.ok || scans.length === 0) return result.raw === scans;
      const { part = -1 } = result.error;
      return part >= 0 && part < scans.length && marksWhole(scans[part] ?? "", result.error);
    });
  });
});

test("two hundred thousand cases and more were tried", () => {
  expect(tried).toBeGreaterThanOrEqual(LEAST_CASES);
});
