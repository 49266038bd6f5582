import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { SET_82_IN_ORDER } from "./character-sets.ts";
import {
  encodeElementString,
  gtinCheckDigit,
  hibcCheckCharacter,
  readLabel,
  type LabelResult,
} from "./index.ts";
import { compatibleElements, hibcText, validValue } from "./samples.fixture.ts";

const TODAY = "2026-06-15";

function read(raw: string): LabelResult {
  return readLabel(raw, { today: TODAY });
}

const digits = (length: number) =>
  fc
    .array(fc.integer({ min: 0, max: 9 }), { minLength: length, maxLength: length })
    .map((all) => all.join(""));

const gtin = fc
  .tuple(digits(1), fc.constantFrom(7, 11, 12, 13))
  .chain(([, length]) => digits(length))
  .map((body) => `${body}${gtinCheckDigit(body)}`);

/** A text with one character exchanged for another one out of `characters`. */
function mutated(text: fc.Arbitrary<string>, characters: string) {
  return text.chain((whole) =>
    fc
      .tuple(fc.nat({ max: whole.length - 1 }), fc.constantFrom(...Array.from(characters)))
      .filter(([at, character]) => whole.charAt(at) !== character)
      .map(([at, character]) => whole.slice(0, at) + character + whole.slice(at + 1)),
  );
}

const hibcDevice = fc
  .tuple(fc.constantFrom("A999", "J123", "Z000"), hibcText(1, 18), digits(1))
  .map(([lic, pcn, unit]) => ({ lic, pcn, unit_of_measure: Number(unit) }));

const day = fc
  .date({
    min: new Date("1980-01-01T00:00Z"),
    max: new Date("2070-12-31T00:00Z"),
    noInvalidDate: true,
  })
  .map((date) => date.toISOString().slice(0, 10));

/** A concatenated HIBC symbol and the fields it must give. */
const hibcLabel = fc
  .tuple(hibcDevice, hibcText(1, 18), hibcText(1, 18), fc.tuple(day, day), fc.nat({ max: 99_999 }))
  .map(([device, lot, serial, [expiry, production], quantity]) => {
    const { lic, pcn, unit_of_measure: unit } = device;
    const compact = expiry.replaceAll("-", "");
    const body =
      `+${lic}${pcn}${unit}/$$3${compact.slice(2)}${lot}` +
      `/S${serial}/16D${production.replaceAll("-", "")}/14D${compact}/Q${quantity}`;
    const check = hibcCheckCharacter(body) ?? "";
    const dates = { precision: "day" as const };
    const fields = {
      structure: "concatenated",
      ...device,
      lot,
      serial,
      expiry: { date: expiry, ...dates },
      production: { date: production, ...dates },
      quantity,
      check_character: check,
    };
    return { raw: body + check, fields };
  });

/** Pieces of real labels, so that random text gets past the first branch of every reader. */
const fragment = fc.oneof(
  fc.constantFrom(
    "]d2",
    "]C1",
    "]C0",
    "]E0",
    "]Q1",
    "(01)",
    "(10)",
    "01",
    "10",
    "17",
    "3103",
    "8008",
    "\u001d",
    "{GS}",
    "|",
    "09506000134352",
    "261231",
    "https://",
    "id.gs1.org",
    "/01/",
    "/10/",
    "?17=",
    "%2F",
    "#",
    "&",
    ";",
    "+A999",
    "+$$3",
    "$",
    "/S",
    "/14D",
    "*",
    "_",
    "[)>\u001e06\u001d",
    "9N",
    "1T",
    "\u001e\u0004",
    "\r\n",
    "\u2028",
    "\ud800",
    "\u00e9",
  ),
  fc.string({ maxLength: 6, unit: "binary" }),
);

const labelLike = fc.array(fragment, { maxLength: 12 }).map((all) => all.join(""));

describe("random valid data", () => {
  test("of any AIs come back as they were written", () => {
    fc.assert(
      fc.property(
        compatibleElements,
        fc.constantFrom("]d2", "]C1", "]e0"),
        (elements, identifier) => {
          const raw = identifier + encodeElementString(elements);
          const result = read(raw);
          expect(result).toMatchObject({ ok: true, scheme: "gs1", raw });
          expect(result.ok && result.elements).toEqual(elements);
        },
      ),
      { numRuns: 2000 },
    );
  });

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
    const link = fc.tuple(gtin, validValue("10"), validValue("21"), validValue("17"));
    fc.assert(
      fc.property(link, ([key, lot, serial, expiry]) => {
        const escape = (text: string) =>
          text.replaceAll(
            /[^A-Za-z0-9]/g,
            (it) => `%${it.charCodeAt(0).toString(16).padStart(2, "0")}`,
          );
        const filled = key.padStart(14, "0");
        const path = `/01/${filled}/10/${escape(lot)}/21/${escape(serial)}`;
        const raw = `https://example.com${path}?17=${expiry}`;
        const result = read(raw);
        expect(result).toMatchObject({ ok: true, fields: { gtin: filled, lot, serial } });
      }),
      { numRuns: 1000 },
    );
  });

  test("of an HIBC label come back as they were written", () => {
    fc.assert(
      fc.property(hibcLabel, ({ raw, fields }) => {
        const result = read(raw);
        expect(result.ok && result.fields).toEqual(fields);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("one character exchanged", () => {
  test("in a bare GTIN is refused", () => {
    fc.assert(
      fc.property(mutated(gtin, "0123456789"), (raw) => {
        expect(read(raw)).toMatchObject({ ok: false, error: { kind: "invalid_check_digit" } });
      }),
      { numRuns: 2000 },
    );
  });

  test.each(["00", "01", "02", "253", "255", "402", "414", "8003", "8006", "8017"])(
    "in the checked digits of (%s) is refused",
    (ai) => {
      const length =
        { "00": 18, "402": 17, "8003": 14, "8017": 18 }[ai] ??
        (/^(01|02|8006)$/.test(ai) ? 14 : 13);
      const checked = validValue(ai).map((value) => value.slice(0, length));
      const rest = ai === "8006" ? "0102" : "";
      fc.assert(
        fc.property(mutated(checked, "0123456789"), (value) => {
          const result = read(`]d2${ai}${value}${rest}`);
          expect(result).toMatchObject({ ok: false, error: { ai } });
        }),
        { numRuns: 300 },
      );
    },
  );

  test("in a model number is refused", () => {
    fc.assert(
      fc.property(mutated(validValue("8013"), SET_82_IN_ORDER), (model) => {
        expect(read(`]d28013${model}`)).toMatchObject({ ok: false, error: { ai: "8013" } });
      }),
      { numRuns: 2000 },
    );
  });

  test("in an HIBC label is refused", () => {
    const characters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";
    fc.assert(
      fc.property(
        mutated(
          hibcLabel.map(({ raw }) => raw),
          characters,
        ),
        (raw) => {
          expect(read(raw).ok).toBe(false);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("any text whatever", () => {
  test("is answered, with the raw text kept and the span of an error inside it", () => {
    const any = fc.oneof(labelLike, fc.string({ unit: "binary", maxLength: 60 }));
    fc.assert(
      fc.property(any, fc.constantFrom("enforce", "defer"), (raw, associations) => {
        const result = readLabel(raw, { today: TODAY, associations, gsTokens: ["~1", ""] });
        expect(result.raw).toBe(raw);
        if (result.ok) return;
        const { at, length } = result.error;
        expect(at >= 0 && length >= 0 && at + length <= raw.length).toBe(true);
      }),
      { numRuns: 7000 },
    );
  });

  test("in several scans is answered, and an error names one of them", () => {
    fc.assert(
      fc.property(fc.array(labelLike, { maxLength: 4 }), (scans) => {
        const result = readLabel(scans, { today: TODAY });
        expect(result.raw).toBe(scans);
        if (result.ok || scans.length === 0) return;
        expect(result.error.part).toBeLessThan(scans.length);
      }),
      { numRuns: 2000 },
    );
  });

  // One piece over and over, up to a million characters. Processor time, not time on the wall, so
  // that a loaded machine does not matter.
  test.each([
    "A",
    "\r\n",
    " ",
    "(",
    "(01)",
    "(10)A",
    "(99) ",
    "{GS}",
    "^]",
    "\u001d",
    "]d2",
    "17261231",
    "10A\u001d",
    "+",
    "/S",
    "%2F",
    "https://a/01/",
    "?17=1&",
    "*",
    "<GS>",
    "[)>\u001e06\u001d",
    "=",
    "\u00e9",
  ])("made of %j a million characters long is answered at once", (piece) => {
    for (const start of ["", "]d2", "]d20109506000134352", "https://a/", "+A9991", "(01)"]) {
      for (const size of [8000, 1_000_000]) {
        const raw = start + piece.repeat(size / piece.length);
        const before = process.cpuUsage();
        readLabel(raw, { today: TODAY, gsTokens: ["~1"] });
        const { user, system } = process.cpuUsage(before);
        expect((user + system) / 1000).toBeLessThan(100);
      }
    }
  });
});
