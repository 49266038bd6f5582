import bwipjs from "bwip-js/node";
import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { aiFacts, findAi } from "./ai-facts.ts";
import { PREDEFINED_LENGTHS } from "./ai-table.ts";
import { encodeElementString, readLabel, type LabelElement } from "./index.ts";
import { oneAiPerLine, validValue, withCompanions } from "./samples.fixture.ts";

/** Not checked here but by bwip-js: currencies, package types, the inner structure of coupons. */
const BEYOND_OURS: Readonly<Record<string, string | undefined>> = {
  "3910": "978123",
  "3930": "978123",
  "7041": "PX",
};
const COUPONS = ["8110", "8112"];

function sampleOf(ai: string): string {
  return BEYOND_OURS[ai] ?? fc.sample(validValue(ai), { numRuns: 1, seed: Number(ai) })[0] ?? "";
}

/** An element with all that it needs beside it. */
function labelAround(element: LabelElement): LabelElement[] {
  const ais = withCompanions([element.ai]) ?? [];
  return ais.map((ai) => (ai === element.ai ? element : { ai, value: sampleOf(ai) }));
}

/** What the independent check of bwip-js says: nothing, or the name of its error. */
function bwipError(elements: readonly LabelElement[]): string | undefined {
  const text = elements
    .map(({ ai, value }) => `(${ai})${value.replaceAll(/[()^]/g, (it) => `^0${it.charCodeAt(0)}`)}`)
    .join("");
  try {
    bwipjs.raw({ bcid: "gs1datamatrix", text, parse: true });
    return undefined;
  } catch (error) {
    return String(error);
  }
}

function ourError(elements: readonly LabelElement[]): string | undefined {
  const options = { today: "2026-06-15", associations: "enforce" as const };
  const result = readLabel(`]d2${encodeElementString(elements)}`, options);
  return result.ok ? undefined : JSON.stringify(result.error);
}

describe("the table of application identifiers", () => {
  test("holds every AI of the dictionary once", () => {
    expect(aiFacts).toHaveLength(541);
    expect(new Set(aiFacts.map(({ ai }) => ai)).size).toBe(541);
  });

  test("gives all AIs with the same first two digits the same length", () => {
    const lengths = new Map<string, number>();
    for (const { ai } of aiFacts) {
      const prefix = ai.slice(0, 2);
      expect(lengths.get(prefix) ?? ai.length).toBe(ai.length);
      lengths.set(prefix, ai.length);
    }
  });

  test("gives a fixed format to every element of predefined length", () => {
    for (const { ai, predefinedLength, min, max } of aiFacts) {
      if (predefinedLength > 0)
        expect([ai, min, max]).toEqual([ai, predefinedLength, predefinedLength]);
    }
    expect(PREDEFINED_LENGTHS.size).toBe(22);
  });

  test.each([
    "04",
    "14",
    "18",
    "19",
    "23",
    "252",
    "256",
    "3106",
    "3379",
    "718",
    "719",
    "9",
    "",
    "1O",
  ])("does not know %j", (ai) => {
    expect(findAi(ai)).toBeUndefined();
  });

  test.each(["7003", "7006", "422", "402", "8005", "8006", "8017", "8018"])(
    "gives (%s) a fixed length that still ends at a separator",
    (ai) => {
      const fact = findAi(ai);
      expect([fact?.min === fact?.max, fact?.predefinedLength]).toEqual([true, 0]);
    },
  );
});

describe("every line of the table agrees with bwip-js", () => {
  test.each(oneAiPerLine.filter((ai) => !COUPONS.includes(ai)))("about (%s)", (ai) => {
    const value = sampleOf(ai);
    const label = labelAround({ ai, value });
    expect([ai, value, bwipError(label), ourError(label)]).toEqual([
      ai,
      value,
      undefined,
      undefined,
    ]);

    // The faulty element comes last, so that nothing behind it is drawn into the fault.
    const companions = label.filter((element) => element.ai !== ai);
    for (const faulty of [value + "0".repeat(91), `\u00a3${value.slice(1)}`]) {
      const whole = [...companions, { ai, value: faulty }];
      expect(bwipError(whole)).toBeDefined();
      expect(ourError(whole)).toMatch(/unknown_ai|value_too_|invalid_character/);
    }
    if (label.length === 1) return;
    const alone = label.filter((element) => element.ai === ai);
    expect([ai, bwipError(alone) === undefined]).toEqual([ai, ourError(alone) === undefined]);
  });
});

describe("the content rules agree with bwip-js", () => {
  test.each([
    ["00", "106141412345678900"],
    ["253", "1231231231231TEST"],
    ["402", "95060001343520002"],
    ["8003", "19506000134352"],
    ["8003", "09506000134353"],
    ["17", "260230"],
    ["17", "261301"],
    ["17", "250229"],
    ["17", "260431"],
    ["11", "000000"],
    ["7003", "2612001200"],
    ["7003", "2612312400"],
    ["7003", "2612311260"],
    ["7007", "260101260230"],
    ["7007", "2601012602"],
    ["7011", "2601012460"],
    ["8008", "2601012400"],
    ["8008", "26010123606"],
    ["8008", "260101235960"],
    ["4324", "2601012460"],
    ["4326", "260100"],
    ["7250", "19990229"],
    ["7250", "19991301"],
    ["7251", "199902282400"],
    ["421", "000ABC"],
    ["422", "000"],
    ["423", "27652"],
    ["423", "276000"],
    ["4307", "XX"],
    ["7030", "998A"],
    ["4309", "18000000010000000000"],
    ["4309", "00000000003600000001"],
    ["4300", "A%2"],
    ["4300", "A%GG"],
    ["4321", "2"],
    ["4330", "000000+"],
    ["7040", "1AB!"],
    ["7241", "11"],
    ["7252", "3"],
    ["7258", "2/1"],
    ["7258", "0/1"],
    ["7258", "123"],
    ["8001", "00001000101000"],
    ["8001", "12341234512320"],
    ["8004", "AB12"],
    ["8006", "095060001343520002"],
    ["8006", "095060001343520201"],
    ["8006", "095060001343530102"],
    ["8007", "DE89370400440532013001"],
    ["8007", "XX89370400440532013000"],
    ["8010", "1234ab"],
    ["8011", "01"],
    ["8013", "1987654Ad4X4bL5ttr2310c2X"],
    ["8014", "12345678901234567890122NT"],
    ["8030", "ABC="],
    ["8030", "A=B"],
  ])("that (%s)%s breaks one", (ai, value) => {
    const label = labelAround({ ai, value });
    expect(ourError(label)).toMatch(new RegExp(`"ai":"${ai}"`));
    expect(bwipError(label)).toMatch(new RegExp(`AI ${ai}:`));
  });
});
