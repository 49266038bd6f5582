/**
 * `npm run fuzz -- [inputs] [seed]`: a million random inputs, a part of them several scans of one
 * label or the labels of one pack. Every one must be answered, its raw text kept and the span of an
 * error inside it; the first that is not is printed as JSON, and the exit code is 1.
 */
import { readLabel, readPack, type LabelResult, type ReadOptions } from "#labels";
import { randomScan } from "../../libs/labels/fuzz.fixture.ts";
import { Random } from "../../libs/labels/random.fixture.ts";

const usualCount = 1_000_000;
const usual = { today: "2026-06-15", gsTokens: ["~1"] };
const optionsOf = { even: usual, odd: { ...usual, associations: "enforce" } } as const;

type Input = string | string[];
/** The inputs that took longest for each of their characters, in nanoseconds. */
type Slow = { input: Input; each: number }[];

export function run([countText, seedText]: readonly string[]): void {
  const count = readCount(countText, usualCount);
  const seed = readCount(seedText, Date.now() % 2 ** 31);
  console.log(`seed ${seed}, ${count.toLocaleString("en")} inputs`);
  const answers = new Map<string, number>();
  const slow: Slow = [];
  const before = process.cpuUsage();
  for (let n = 0; n < count; n += 1) {
    // Each input has a seed of its own, so that any of them can be had again.
    const input = randomInput(new Random(seed + n));
    const kinds = answerTo(input, slow, n % 2 === 0 ? optionsOf.even : optionsOf.odd);
    if (kinds === undefined) return void (process.exitCode = 1);
    for (const kind of kinds) answers.set(kind, (answers.get(kind) ?? 0) + 1);
  }
  const { user, system } = process.cpuUsage(before);
  const seconds = (user + system) / 1_000_000;
  for (const [kind, times] of [...answers].sort(([, a], [, b]) => b - a)) {
    console.log(`${String(times).padStart(9)}  ${kind}`);
  }
  console.log(`no exception; ${seconds.toFixed(1)} s of processor time`);
  saySlowest(slow);
}

function readCount(text: string | undefined, otherwise: number): number {
  if (text === undefined) return otherwise;
  const count = Number(text);
  if (Number.isInteger(count) && count >= 0) return count;
  throw new Error(`npm run fuzz -- [inputs] [seed]: ${text} is no whole number`);
}

function randomInput(random: Random): Input {
  if (random.below(10) > 0) return randomScan(random);
  return Array.from({ length: random.below(5) }, () => randomScan(random));
}

/** What the input is answered with; undefined, once said, where that is not as it must be. */
function answerTo(input: Input, slow: Slow, options: ReadOptions): string[] | undefined {
  try {
    const from = process.hrtime.bigint();
    const result = readLabel(input, options);
    note(slow, input, Number(process.hrtime.bigint() - from));
    const results = typeof input === "string" ? [] : readPack(input, options).labels;
    if (results.every(isInside) && isInside(result) && result.raw === input) {
      const pack = typeof input === "string" ? [] : ["(packs among them)"];
      return [result.ok ? `read as ${result.scheme}` : `refused: ${result.error.kind}`, ...pack];
    }
    console.log(`marks what is not there: ${JSON.stringify({ input, result })}`);
  } catch (error) {
    console.log(`${String(error)}: ${JSON.stringify(input)}`);
  }
  return undefined;
}

function isInside(result: LabelResult): boolean {
  if (result.ok) return true;
  const { raw, error } = result;
  const text = typeof raw === "string" ? raw : (raw[error.part ?? 0] ?? "");
  return error.at >= 0 && error.length >= 0 && error.at + error.length <= text.length;
}

const lengthOf = (input: Input): number => [input].flat().join("").length;

// A short text takes as long as the call.
const leastLength = 40;
const kept = 20;

function note(slow: Slow, input: Input, nanoseconds: number): void {
  const length = lengthOf(input);
  const each = nanoseconds / length;
  if (length < leastLength || (slow.length === kept && each < slow[kept - 1]!.each)) return;
  slow.push({ input, each });
  slow.sort((a, b) => b.each - a.each);
  slow.length = Math.min(slow.length, kept);
}

/** The slowest when measured again: at its first reading another program may have come between. */
function saySlowest(slow: Slow): void {
  const again = slow.map(({ input }) => {
    let least = Infinity;
    for (let n = 0; n < 50; n += 1) {
      const from = process.hrtime.bigint();
      readLabel(input, usual);
      least = Math.min(least, Number(process.hrtime.bigint() - from));
    }
    return { input, each: least / lengthOf(input) };
  });
  const [slowest] = again.sort((a, b) => b.each - a.each);
  if (slowest === undefined) return;
  const text = JSON.stringify(slowest.input);
  const shown = text.length > 200 ? `${text.slice(0, 200)}...` : text;
  console.log(`slowest: ${slowest.each.toFixed(0)} ns a character, ${shown}`);
}
