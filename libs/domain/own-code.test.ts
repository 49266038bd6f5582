import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { encodeElementString, readLabel } from "#labels";
import {
  makeOwnCode,
  ownCodeCount,
  ownElement,
  readOwnCode,
  showOwnCode,
  type OwnKind,
} from "./own-code.ts";

const kinds = ["container", "location", "tray"] as const;
const counters = fc.integer({ min: 0, max: ownCodeCount - 1 });
const ais: Record<OwnKind, string> = { container: "91", location: "92", tray: "93" };

describe.each(kinds)("a code of a %s", (kind) => {
  const code = makeOwnCode(kind, 4711);
  const own = { kind, code };

  test("is read in every form in which a scanner or a person gives it", () => {
    const ai = ais[kind];
    const forms = [
      code,
      code.toLowerCase(),
      showOwnCode(code),
      ` ${code.slice(0, 4)} ${code.slice(4)} `,
      `]d1${code}`,
      `]C0${code}`,
      `]d2${ai}${code}`,
      `]C1${ai}${code}`,
      `${ai}${code}`,
      `\u001d${ai}${code}`,
      `]d2\u001d${ai}${code}\u001d`,
      `(${ai})${code}`,
    ];
    for (const form of forms) expect([form, readOwnCode(form)]).toEqual([form, own]);
  });

  test("is none behind another application identifier, or beside another element", () => {
    for (const ai of ["90", "94", "99", "10", "21", ...kinds.map((each) => ais[each])]) {
      if (ai === ais[kind]) continue;
      for (const form of [`]d2${ai}${code}`, `(${ai})${code}`, `${ai}${code}`]) {
        expect([form, readOwnCode(form)]).toEqual([form, undefined]);
      }
    }
    const more = [`]d2${ais[kind]}${code}\u001d10ABC`, `]d20109506000134352${ais[kind]}${code}`];
    for (const form of more) expect([form, readOwnCode(form)]).toEqual([form, undefined]);
  });

  test("reads back from every counter, and from what its symbol holds", () => {
    fc.assert(
      fc.property(counters, (counter) => {
        const made = makeOwnCode(kind, counter);
        expect(readOwnCode(made)).toEqual({ kind, code: made });
        const { ai, value } = ownElement(made);
        expect(ai).toBe(ais[kind]);
        const text = `]d2${encodeElementString([{ ai, value }])}`;
        expect(readOwnCode(text)).toEqual({ kind, code: made });
        // Valid GS1, so that a scanner set to check element strings lets it pass.
        expect(readLabel(text, { today: "2026-06-15" }).ok).toBe(true);
      }),
    );
  });

  test("is refused with any other first letter, though the rest be right", () => {
    for (const letter of "ABCDEFGHJKLMNPQRSTVWXYZ0123456789") {
      if (letter === code[0]) continue;
      expect([letter, readOwnCode(letter + code.slice(1))]).toEqual([letter, undefined]);
    }
  });

  test("is refused with any single wrong character", () => {
    fc.assert(
      fc.property(counters, fc.integer({ min: 1, max: 6 }), fc.nat(29), (counter, place, step) => {
        const made = makeOwnCode(kind, counter);
        const alphabet = "123456789ABCDEFGHJKMNPQRSTVWXYZ";
        const at = (alphabet.indexOf(made[place]!) + 1 + step) % alphabet.length;
        expect(readOwnCode(made.slice(0, place) + alphabet[at] + made.slice(place + 1))).toBe(
          undefined,
        );
      }),
    );
  });
});

test("codes of different kinds never meet, even for one counter", () => {
  expect(new Set(kinds.map((kind) => makeOwnCode(kind, 7))).size).toBe(3);
});

test("no text of any kind throws, and only a true code is one", () => {
  fc.assert(
    fc.property(fc.oneof(fc.string(), fc.string({ unit: "binary" })), (text) => {
      const read = readOwnCode(text);
      if (read) expect(readOwnCode(read.code)).toEqual(read);
    }),
    { numRuns: 2_000 },
  );
});

test("what a symbol holds is asked of a code alone", () => {
  expect(() => ownElement("CK7QW4X!")).toThrow(RangeError);
  expect(() => ownElement(makeOwnCode("tray", 1).toLowerCase())).toThrow(RangeError);
});
