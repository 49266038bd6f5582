/** Scanners and people at one keyboard, in any order, at the paces of both. */
import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { keysOf, play, type Press } from "./wedge.fixture.ts";
import { usualSettings } from "./wedge.ts";

/**
 * Gaps between the keys of scanners, in milliseconds: a wired one is asked every 1 to 8 ms for one
 * report, a radio one sends in slots and sometimes twice. Common practice, no source.
 */
const scannerPaces = {
  "wired, as fast as it is asked": [1, 1, 2, 1, 1, 2, 1, 3, 1, 1],
  "wired, with pauses of its own": [2, 5, 4, 5, 3, 5, 5, 2, 4, 5],
  "by radio": [8, 12, 9, 15, 11, 8, 21, 10, 13, 9],
  "by radio, far away": [18, 30, 9, 27, 30, 8, 29, 24, 30, 16],
  "all keys at one moment": [0, 0, 0, 0],
} as const;
type Pace = keyof typeof scannerPaces;

/** Gaps between a person's keys. People need 60 ms and more, save for rolled keys. No source. */
const personPaces = {
  /** 120 words of five letters a minute: 100 ms a key. */
  "very fast": { from: 70, to: 130 },
  fast: { from: 60, to: 200 },
  searching: { from: 150, to: 300 },
} as const;

const scanned = fc.record({
  text: fc.stringMatching(/^[A-Z0-9+$/.-]{6,40}$/),
  pace: fc.constantFrom(...(Object.keys(scannerPaces) as Pace[])),
  from: fc.nat(9),
  end: fc.constantFrom("Enter", "Tab"),
  shifts: fc.boolean(),
});

const typed = fc.record({
  text: fc.stringMatching(/^[A-Za-z0-9 ]{1,20}$/),
  pace: fc.constantFrom(...Object.values(personPaces)),
  gaps: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 20, maxLength: 20 }),
  /** Where keys are rolled: so many, almost at once. */
  rolls: fc.array(fc.record({ at: fc.nat(19), keys: fc.integer({ min: 1, max: 3 }) }), {
    maxLength: 3,
  }),
  /** The last key is held down so long that it repeats. */
  held: fc.integer({ min: 0, max: 12 }),
  ending: fc.constantFrom("", "Enter", "Tab", "Backspace", "ArrowLeft", "F2", "Escape"),
});

type Part =
  | { kind: "scan"; keys: Press[]; text: string }
  | { kind: "person"; keys: Press[]; text: string; ending: string };

const scanPart = scanned.map(({ text, pace, from, end, shifts }): Part => {
  const gaps = scannerPaces[pace];
  const gap = (index: number) => gaps[(from + index) % gaps.length]!;
  const keys = Array.from(text).flatMap((key, index): Press[] => {
    const after = index === 0 ? 90 : gap(index);
    if (!shifts || !/[A-Z+$]/.test(key)) return [{ key, after }];
    return [
      { key: "Shift", after },
      { key, shift: true, after: gap(index + 1) },
      { key: "Shift", down: false, after: gap(index + 2) },
    ];
  });
  return { kind: "scan", keys: [...keys, { key: end, after: gap(0) }], text };
});

const personPart = typed.map(({ text, pace, gaps, rolls, held, ending }): Part => {
  const rolled = new Set<number>();
  for (const { at, keys } of rolls) {
    // Never so many on end that they could be a scan.
    if ([at - 1, at + keys].some((index) => rolled.has(index))) continue;
    for (let index = at; index < at + keys; index += 1) rolled.add(index);
  }
  const after = (index: number) =>
    rolled.has(index) && index > 0
      ? 15 + Math.round(gaps[index % gaps.length]! * 20)
      : Math.round(pace.from + gaps[index % gaps.length]! * (pace.to - pace.from));
  const keys: Press[] = Array.from(text).flatMap((key, index): Press[] => {
    const waits = index === 0 ? 90 : after(index);
    const up: Press = { key, down: false, after: 0 };
    if (!/[A-Z]/.test(key)) return [{ key, after: waits }, up];
    const shift = { key: "Shift", code: "ShiftLeft" };
    return [
      { ...shift, after: waits },
      { key, shift: true, after: 45 },
      up,
      { ...shift, down: false, after: 30 },
    ];
  });
  const last = text.at(-1)!;
  const repeats: Press[] = Array.from({ length: held }, (_, index) => ({
    key: last,
    repeat: true,
    after: index === 0 ? 500 : 33,
  }));
  const atEnd: Press[] = ending === "" ? [] : [{ key: ending, after: 80 }];
  return {
    kind: "person",
    keys: [...keys, ...repeats, ...atEnd],
    text: text + last.repeat(held),
    ending,
  };
});

const ofKind = (parts: readonly Part[], kind: Part["kind"]): string[] =>
  parts.filter((part) => part.kind === kind).map(({ text }) => text);

describe("scans and typing in any order", () => {
  test("give exactly the scans and exactly the typed text, whatever has the focus", () => {
    const mixed = fc.array(fc.oneof(scanPart, personPart), { maxLength: 12 });
    fc.assert(
      fc.property(mixed, fc.boolean(), (parts, inText) => {
        const { field, scans, reached, endless } = play(
          parts.flatMap(({ keys }) => keys),
          { inText },
        );
        expect(scans).toEqual(ofKind(parts, "scan"));
        expect(field).toBe(ofKind(parts, "person").join(""));
        // What is no text reaches the page as well, and an end key of no scan does.
        const wanted = parts.flatMap((part) =>
          "ending" in part && part.ending ? [part.ending] : [],
        );
        expect(reached.filter((key) => key.length > 1 && key !== "Shift")).toEqual(wanted);
        expect(endless).toBe(0);
      }),
      { numRuns: 1500 },
    );
  });

  test("are told apart where the scanner sends no end key, too", () => {
    const settings = { ...usualSettings, endKeys: [], endsBySilence: true };
    const silent = scanPart.map((part) => ({ ...part, keys: part.keys.slice(0, -1) }));
    // A scan that nothing ends wants a longer silence.
    const apart: Press = { key: "Control", after: 200 };
    const mixed = fc.array(fc.oneof(silent, personPart), { maxLength: 8 });
    fc.assert(
      fc.property(mixed, fc.boolean(), (parts, inText) => {
        const keys = parts.flatMap((part) => [apart, ...part.keys]);
        const { field, scans } = play(keys, { inText, settings });
        expect(scans).toEqual(ofKind(parts, "scan"));
        expect(field).toBe(ofKind(parts, "person").join(""));
      }),
      { numRuns: 300 },
    );
  });
});

describe("a person's keys", () => {
  test("wait no longer than the longest gap of a scanner and the timer's own 5 ms", () => {
    fc.assert(
      fc.property(personPart, ({ keys, text }) => {
        // Let go of before every key that comes later than that: the field is never behind.
        let count = 0;
        keys.forEach((press, index) => {
          if (press.key.length === 1 && press.down !== false) count += 1;
          const next = keys.slice(index + 1).find(({ down }) => down !== false);
          if (next === undefined || next.after <= usualSettings.maxGapMs + 5) return;
          expect(play(keys.slice(0, index + 1)).field).toBe(text.slice(0, count));
        });
      }),
      { numRuns: 40 },
    );
  });

  test("at 120 words a minute are no scan, for an hour of them", () => {
    const random = fc.sample(fc.double({ min: -1, max: 1, noNaN: true }), 1000);
    const words = "the lower left first molar was sealed with two thin coats ".repeat(600);
    let place = 0;
    const pace = () => 100 + 40 * random[place++ % random.length]!;
    const { scans, field } = play([...keysOf(words, pace), { key: "Enter", after: 70 }]);
    expect(scans).toEqual([]);
    expect(field).toBe(words);
  });
});
