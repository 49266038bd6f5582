import fc from "fast-check";
import { aiFacts, findAi, type AiFact } from "./ai-facts.ts";
import { AI_LINES, MEASURE_LINES } from "./ai-table.ts";
import { HIBC_IN_ORDER, SET_82_IN_ORDER } from "./character-sets.ts";
import { gtinCheckDigit } from "./check-digit.ts";
import { gmnCheckPair } from "./gmn.ts";
import { findExclusivePair } from "./gs1-relations.ts";
import { Random } from "./random.fixture.ts";
import type { LabelElement } from "./result.ts";

/** Random valid values for tests: what each format and content rule of the table of AIs admits. */

const DIGITS = "0123456789";
const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const CHARACTERS: Readonly<Record<string, string>> = {
  N: DIGITS,
  X: SET_82_IN_ORDER,
  Y: `#-/${DIGITS}${LETTERS}`,
  Z: `-_${DIGITS}${LETTERS}${LETTERS.toLowerCase()}`,
};

/** Makes one text after the other. */
type Maker = (random: Random) => string;

const twoDigits =
  (min: number, max: number): Maker =>
  (random) =>
    `${random.between(min, max)}`.padStart(2, "0");

const oneOf =
  (...texts: string[]): Maker =>
  (random) =>
    random.pick(texts);

const joined =
  (...makers: Maker[]): Maker =>
  (random) =>
    makers.map((make) => make(random)).join("");

/** Years away from the edge of the century window of 2026, and days that every month has. */
const shortDate = joined(twoDigits(10, 60), twoDigits(1, 12), twoDigits(1, 28));
const monthAlone = joined(twoDigits(10, 60), twoDigits(1, 12), oneOf("00"));

/** Values for the components whose content rule leaves less than their character set. */
const RULED: Readonly<Record<string, Maker>> = {
  date: shortDate,
  dateOrMonth: (random) => (random.below(2) === 0 ? shortDate : monthAlone)(random),
  longDate: joined(oneOf("19"), shortDate),
  time: joined(twoDigits(0, 23), twoDigits(0, 59)),
  hour: twoDigits(0, 23),
  minute: twoDigits(0, 59),
  second: twoDigits(0, 59),
  country: oneOf("036", "276", "528", "840"),
  countryOr999: oneOf("276", "999"),
  countryLetters: oneOf("DE", "NL", "US"),
  yesNo: oneOf("0", "1"),
  sex: oneOf("0", "1", "2", "9"),
  winding: oneOf("0", "1", "9"),
  hyphen: oneOf("-"),
  zero: oneOf("0"),
  importerIndex: oneOf("-", "0", "Z", "_", "z"),
  pieceOfTotal: oneOf("0102", "0202", "0199"),
  birthSequence: oneOf("1/1", "2/3", "9/9"),
  mediaType: oneOf("01", "10", "80", "99"),
  latitude: oneOf("0000000000", "1800000000"),
  longitude: oneOf("0000000000", "3600000000"),
  iban: oneOf("DE89370400440532013000", "GB82WEST12345698765432"),
};

function componentMaker(component: string): Maker {
  const [shape = "", rule = ""] = component.split(":");
  const characters = CHARACTERS[shape.charAt(0)] ?? "";
  const [min = 0, max = min] = shape.slice(1).replace("?", "").split("-").map(Number);
  const ruled = RULED[rule];
  if (ruled !== undefined) return ruled;
  switch (rule) {
    case "check":
      return (random) => {
        const digits = random.text(DIGITS, min - 1);
        return `${digits}${gtinCheckDigit(digits)}`;
      };
    case "checkPair":
      return (random) => {
        const model = `12${random.text(characters, 1, max - 4)}`;
        return `${model}${gmnCheckPair(model)}`;
      };
    case "companyPrefix":
      return (random) => random.text(DIGITS, 4, max);
    case "nonZero":
      return (random) => random.text(DIGITS.slice(1), min);
    case "noLeadingZero":
      return (random) => random.text(DIGITS.slice(1), 1, max);
    case "percentEncoded":
      return (random) => random.text("ABCxyz0123-", min, max);
    default:
      return (random) => random.text(characters, min, max);
  }
}

/** Values of one format; components that may be missing are there or not, from the right. */
function formatMaker(format: string): Maker {
  const components = format.split(" ");
  const makers = components.map(componentMaker);
  const required = components.filter((component) => !component.split(":")[0]?.endsWith("?")).length;
  return (random) => {
    const count = random.between(required, components.length);
    let value = "";
    for (const make of makers.slice(0, count)) value += make(random);
    return value;
  };
}

function formatOf(ai: string): string {
  const line = AI_LINES.find(([ais]) => {
    const [first = "", last = first] = ais.split("-");
    return ai.length === first.length && ai >= first && ai <= last;
  });
  return line?.[1] ?? "N6";
}

const makers = new Map<string, Maker>();

/** A random valid value of one AI. */
export function randomValue(ai: string, random: Random): string {
  const known = makers.get(ai) ?? formatMaker(formatOf(ai));
  makers.set(ai, known);
  return known(random);
}

/** Whatever is made from a seed, as an arbitrary. */
export function seeded<Made>(make: (random: Random) => Made): fc.Arbitrary<Made> {
  return fc.noShrink(fc.nat().map((seed) => make(new Random(seed))));
}

/** Random valid values of one AI. */
export const validValue = (ai: string): fc.Arbitrary<string> =>
  seeded((random) => randomValue(ai, random));

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
export function randomElements(random: Random): LabelElement[] {
  const facts: AiFact[] = [];
  for (let left = random.between(1, 6); left > 0; left -= 1) {
    const fact = random.pick(aiFacts);
    if (!facts.includes(fact) && findExclusivePair([...facts, fact]) === -1) facts.push(fact);
  }
  return facts.map(({ ai }) => ({ ai, value: randomValue(ai, random) }));
}

/** Random elements that may stand on one label. */
export const compatibleElements: fc.Arbitrary<LabelElement[]> = seeded(randomElements);

/** The letters and digits that an HIBC lot, serial or product number may have. */
export const HIBC_LETTERS = HIBC_IN_ORDER.slice(0, 36);
