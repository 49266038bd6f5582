/**
 * Our parser beside the tokeniser gs1-barcode-parser-mod and the checks of bwip-js, on the same
 * labels in the same run: how fast, how many valid ones each reads, how many faulty it refuses.
 */
import bwipjs from "bwip-js/node";
import { parseBarcode } from "gs1-barcode-parser-mod";
import { encodeElementString, readLabel, type LabelElement } from "#labels";
import { Random } from "../../libs/labels/random.fixture.ts";
import { randomValue } from "../../libs/labels/samples.fixture.ts";
import { median } from "./bench-database.ts";
import { faultyLabels } from "./faulty-labels.ts";

const seed = 20_261_125;
const labels = 1000;
const rounds = 8;
const bar = 5;

interface Label {
  elements: readonly LabelElement[];
  /** As a scanner sends it. */
  raw: string;
  /** With its AIs in brackets, which is all that bwip-js takes. */
  bracketed: string;
}

interface Contender {
  name: string;
  reads: (label: Label) => boolean;
  /** Readings of all labels in a round: more for a fast one, so that the clock can tell. */
  passes: number;
}

const options = { today: "2026-06-15", associations: "enforce" } as const;

const ours: Contender = {
  name: "readLabel",
  passes: 200,
  reads: ({ raw, elements }) => {
    const result = readLabel(raw, options);
    return result.ok && isSame(elements, result.elements);
  },
};

const tokeniser: Contender = {
  name: "gs1-barcode-parser-mod",
  passes: 40,
  reads: ({ raw, elements }) => {
    try {
      const { parsedCodeItems } = parseBarcode(raw);
      return isSame(
        elements,
        parsedCodeItems.map(({ ai, raw: value }) => ({ ai, value })),
      );
    } catch {
      return false;
    }
  },
};

const lint: Contender = {
  name: "bwip-js, its checks and the symbol it draws fastest",
  passes: 1,
  reads: ({ bracketed }) => {
    try {
      bwipjs.raw({ bcid: "databarexpandedstacked", text: bracketed, parse: true });
      return true;
    } catch (error) {
      // A label too long for this symbol is no fault of its data.
      return !String(error).includes("bwipp.GS1");
    }
  },
};

function isSame(expected: readonly LabelElement[], found: readonly LabelElement[]): boolean {
  if (expected.length !== found.length) return false;
  return expected.every(({ ai, value }, index) => {
    return found[index]?.ai === ai && found[index].value === value;
  });
}

const common = ["17", "10", "21", "11", "240", "30", "7003", "8008", "710", "20"];
const setsOfAis = [["17", "10"], ["10", "17"], ["17", "10", "21"], ["11", "17", "10"], ["10"], []];

/** What stands on packs of devices: the item, then what tells this one from the next. */
function deviceLabel(random: Random): Label {
  const further = common.filter((ai) => ai.length > 1 && random.below(6) === 0);
  const ais = random.below(3) === 0 ? further : random.pick(setsOfAis);
  const elements = ["01", ...ais].map((ai) => ({ ai, value: valueOf(ai, random) }));
  const raw = random.pick(["]d2", "]d2", "]C1", "]Q3"]) + encodeElementString(elements);
  return { elements, raw, bracketed: inBrackets(elements) };
}

/** Lots and serials are short, and of capitals and digits for the most part. */
function valueOf(ai: string, random: Random): string {
  const isPlain = ai === "10" || ai === "21";
  if (!isPlain || random.below(20) === 0) return randomValue(ai, random);
  return random.text("ABCDEFGHJKLMNPRSTUVWXYZ0123456789-0123456789", 4, 12);
}

const inBrackets = (elements: readonly LabelElement[]): string =>
  elements
    .map(({ ai, value }) => `(${ai})${value.replaceAll(/[()^]/g, (it) => `^0${it.charCodeAt(0)}`)}`)
    .join("");

function faulty(bracketed: string): Label {
  const elements = [...bracketed.matchAll(/\((\d+)\)([^(]*)/g)].map(([, ai = "", value = ""]) => ({
    ai,
    value,
  }));
  return { elements, raw: `]d2${encodeElementString(elements)}`, bracketed };
}

/** Labels a second of processor time. */
function measure({ reads, passes }: Contender, from: readonly Label[]): number {
  const before = process.cpuUsage();
  for (let pass = 0; pass < passes; pass += 1) for (const label of from) reads(label);
  const { user, system } = process.cpuUsage(before);
  return (passes * from.length * 1_000_000) / (user + system);
}

/** In turns, so that a noisy machine disturbs all alike; the median of the rounds. */
export function run(): void {
  const valid = Array.from({ length: labels }, (_, n) => deviceLabel(new Random(seed + n)));
  const contenders = [ours, tokeniser, lint];
  const rates = contenders.map((): number[] => []);
  for (const each of contenders) measure(each, valid);
  for (let round = 0; round < rounds; round += 1) {
    for (const [index, each] of contenders.entries()) rates[index]?.push(measure(each, valid));
  }
  console.log(`${labels} labels of seed ${seed}, ${faultyLabels.length} faulty ones`);
  const medians = rates.map(median);
  for (const [index, { name, reads }] of contenders.entries()) {
    const missed = faultyLabels.filter(([, label]) => reads(faulty(label)));
    const refused = faultyLabels.length - missed.length;
    const read = valid.filter(reads).length;
    const rate = Math.round(medians[index] ?? 0).toLocaleString("en");
    console.log(
      `${name}: ${rate} a CPU second; reads ${read} of ${labels}, ` +
        `refuses ${refused} of ${faultyLabels.length}`,
    );
    if (missed.length > 0) console.log(`  reads ${missed.map(([rule]) => rule).join("; ")}`);
  }
  const [own = 0, tokens = 0, checks = 0] = medians;
  console.log(
    `ratio to gs1-barcode-parser-mod ${(own / tokens).toFixed(1)} (bar ${bar}), ` +
      `to bwip-js ${(own / checks).toFixed(0)}`,
  );
}
