import fc from "fast-check";
import { aiFacts, findAi, type AiFact } from "./ai-facts.ts";
import { AI_LINES, MEASURE_LINES } from "./ai-table.ts";
import { HIBC_IN_ORDER, SET_82_IN_ORDER } from "./character-sets.ts";
import { gtinCheckDigit } from "./check-digit.ts";
import { gmnCheckPair } from "./gmn.ts";
import { findExclusivePair } from "./gs1-relations.ts";
import type { LabelElement } from "./result.ts";

/** Random valid values for tests: what each format and content rule of the table of AIs admits. */

const DIGITS = Array.from("0123456789");
const CHARACTERS: Readonly<Record<string, readonly string[]>> = {
  N: DIGITS,
  X: Array.from(SET_82_IN_ORDER),
  Y: Array.from("#-/0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"),
  Z: Array.from("-_0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"),
};

function textOf(characters: readonly string[], minLength: number, maxLength = minLength) {
  return fc
    .array(fc.constantFrom(...characters), { minLength, maxLength })
    .map((all) => all.join(""));
}

const twoDigits = (min: number, max: number) =>
  fc.integer({ min, max }).map((value) => `${value}`.padStart(2, "0"));

/** Years away from the edge of the century window of 2026, and days that every month has. */
const shortDate = fc
  .tuple(twoDigits(10, 60), twoDigits(1, 12), twoDigits(1, 28))
  .map((parts) => parts.join(""));

const time = fc.tuple(twoDigits(0, 23), twoDigits(0, 59)).map((parts) => parts.join(""));

/** Values for the components whose content rule leaves less than their character set. */
const RULED: Readonly<Record<string, fc.Arbitrary<string>>> = {
  date: shortDate,
  dateOrMonth: fc.oneof(
    shortDate,
    shortDate.map((date) => `${date.slice(0, 4)}00`),
  ),
  longDate: shortDate.map((date) => `19${date}`),
  time,
  hour: twoDigits(0, 23),
  minute: twoDigits(0, 59),
  second: twoDigits(0, 59),
  country: fc.constantFrom("036", "276", "528", "840"),
  countryOr999: fc.constantFrom("276", "999"),
  countryLetters: fc.constantFrom("DE", "NL", "US"),
  yesNo: fc.constantFrom("0", "1"),
  sex: fc.constantFrom("0", "1", "2", "9"),
  winding: fc.constantFrom("0", "1", "9"),
  hyphen: fc.constant("-"),
  zero: fc.constant("0"),
  importerIndex: fc.constantFrom("-", "0", "Z", "_", "z"),
  pieceOfTotal: fc.constantFrom("0102", "0202", "0199"),
  birthSequence: fc.constantFrom("1/1", "2/3", "9/9"),
  mediaType: fc.constantFrom("01", "10", "80", "99"),
  latitude: fc.constantFrom("0000000000", "1800000000"),
  longitude: fc.constantFrom("0000000000", "3600000000"),
  iban: fc.constantFrom("DE89370400440532013000", "GB82WEST12345698765432"),
};

function checkDigitEnded(length: number): fc.Arbitrary<string> {
  return textOf(DIGITS, length - 1).map((digits) => `${digits}${gtinCheckDigit(digits)}`);
}

function componentValue(component: string): fc.Arbitrary<string> {
  const [shape = "", ...rules] = component.split(":");
  const characters = CHARACTERS[shape.charAt(0)] ?? [];
  const [min = 0, max = min] = shape.slice(1).replace("?", "").split("-").map(Number);
  const [rule = ""] = rules;
  const ruled = RULED[rule];
  if (ruled !== undefined) return ruled;
  if (rule === "check") return checkDigitEnded(min);
  if (rule === "checkPair") {
    return textOf(characters, 1, max - 4).map((tail) => {
      const model = `12${tail}`;
      return `${model}${gmnCheckPair(model)}`;
    });
  }
  if (rule === "companyPrefix") return textOf(DIGITS, 4, max);
  if (rule === "nonZero" || rule === "noLeadingZero") {
    return textOf(DIGITS.slice(1), rule === "nonZero" ? min : 1, max);
  }
  if (rule === "percentEncoded") return textOf(Array.from("ABCxyz0123-"), min, max);
  return textOf(characters, min, max);
}

/** Values of one format; components that may be missing are there or not, from the right. */
function formatValue(format: string): fc.Arbitrary<string> {
  const components = format.split(" ");
  const required = components.filter((component) => !component.split(":")[0]?.endsWith("?")).length;
  return fc
    .integer({ min: required, max: components.length })
    .chain((count) => fc.tuple(...components.slice(0, count).map(componentValue)))
    .map((parts) => parts.join(""));
}

function formatOf(ai: string): string {
  const line = AI_LINES.find(([ais]) => {
    const [first = "", last = first] = ais.split("-");
    return ai.length === first.length && ai >= first && ai <= last;
  });
  return line?.[1] ?? "N6";
}

const arbitraries = new Map<string, fc.Arbitrary<string>>();

/** Random valid values of one AI. */
export function validValue(ai: string): fc.Arbitrary<string> {
  const known = arbitraries.get(ai) ?? formatValue(formatOf(ai));
  arbitraries.set(ai, known);
  return known;
}

/** The first AI of every line of the table. */
export const oneAiPerLine: readonly string[] = [
  ...AI_LINES.map(([ais]) => ais.slice(0, ais.includes("-") ? ais.indexOf("-") : undefined)),
  ...MEASURE_LINES.map(([family]) => `${family}2`),
];

function factOf(ai: string): AiFact {
  const fact = findAi(ai);
  if (fact === undefined) throw new Error(`${ai} is no AI`);
  return fact;
}

/** The AIs of a smallest set around `wanted` in which every AI has what it needs. */
export function withCompanions(wanted: readonly string[]): string[] | undefined {
  const facts = wanted.map(factOf);
  if (findExclusivePair(facts) !== -1) return undefined;
  const has = (low: number, high: number) =>
    facts.some(({ number }) => number >= low && number <= high);
  const lacking = facts.find(
    ({ needs }) =>
      needs.length > 0 && !needs.some((all) => all.every(({ low, high }) => has(low, high))),
  );
  if (lacking === undefined) return [...wanted];
  for (const all of lacking.needs) {
    const added = all.filter(({ low, high }) => !has(low, high));
    const ais = added.map(({ low }) => aiFacts.find(({ number }) => number >= low)?.ai ?? "");
    const whole = withCompanions([...wanted, ...ais]);
    if (whole !== undefined) return whole;
  }
  return undefined;
}

/** Random elements, each AI once, none that excludes another; companions may be missing. */
export const compatibleElements: fc.Arbitrary<LabelElement[]> = fc
  .uniqueArray(fc.constantFrom(...aiFacts), { minLength: 1, maxLength: 6 })
  .map((facts) => facts.filter((_, index) => findExclusivePair(facts.slice(0, index + 1)) === -1))
  .chain((facts) =>
    fc.tuple(
      ...facts.map(({ ai }) => validValue(ai).map((value): LabelElement => ({ ai, value }))),
    ),
  );

const LOT_CHARACTERS = HIBC_IN_ORDER.slice(0, 36);

/** Random texts of the letters and digits that an HIBC lot, serial or product number may have. */
export function hibcText(minLength: number, maxLength: number): fc.Arbitrary<string> {
  return textOf(Array.from(LOT_CHARACTERS), minLength, maxLength);
}
