/**
 * How many labels each decoder reads in generated pictures, and what it costs: `zxing-wasm` alone in
 * one pass that tries everything, our passes on it over one still picture and over four frames, and
 * our passes on `@zxing/library`. Then frames without a symbol. Arguments: pictures for each
 * symbology and degradation (2), frames without a symbol (300), and the seed (4711), which is none
 * of those that the passes were chosen with (11, 21, 555 and 2026).
 */
import { makeContenders, Tally, type Contender } from "./decode-trial.ts";
import { degradations, makeDecoyPicture, makeLabelPicture } from "./label-pictures.ts";
import { decoys, type Decoy } from "./label-scenes.ts";
import { symbologies } from "./label-symbols.ts";

type Tallies = ReadonlyMap<Contender, Tally>;

export async function run(words: string[]): Promise<void> {
  const [perCell, empty, seed] = [2, 300, 4711].map((usual, at) => Number(words[at] ?? usual));
  const contenders = await makeContenders();
  const all = Object.values(contenders);
  await all[0]!.read([makeDecoyPicture("text", 1)]);
  const labels = await readLabels(all, perCell!, seed!);
  printTables(labels, perCell!);
  const { baseline, still, live } = contenders;
  for (const ours of [still, live]) printRatio(labels, ours, baseline);
  const nothing = await readNothing([baseline, still, live], empty!, seed!);
  const cost = (of: Contender): number => nothing.get(of)!.milliseconds;
  const ratio = (cost(live) / cost(baseline)).toFixed(2);
  console.log(
    `CPU of a frame without a symbol, ${live.name} to ${baseline.name}: ${ratio} (bar 0.5)`,
  );
}

async function readLabels(all: Contender[], perCell: number, seed: number): Promise<Tallies> {
  const tallies = new Map(all.map((contender) => [contender, new Tally()]));
  let count = 0;
  for (const symbology of symbologies) {
    for (const degradation of degradations) {
      for (let n = 0; n < perCell; n += 1) {
        const of = { seed: seed * 100_003 + (count += 1) * 7919, frames: 4 };
        const picture = makeLabelPicture(symbology, degradation, of);
        for (const [contender, tally] of tallies) await tally.add(contender, picture);
      }
    }
  }
  return tallies;
}

async function readNothing(all: Contender[], wanted: number, seed: number): Promise<Tallies> {
  const tallies = new Map(all.map((contender) => [contender, new Tally()]));
  const kinds = Object.keys(decoys) as Decoy[];
  for (let n = 0; n < wanted; n += 1) {
    const frame = makeDecoyPicture(kinds[n % kinds.length]!, seed * 7777 + n);
    // Four times the same, the worst case for agreement.
    const frames = [frame, frame, frame, frame];
    for (const [contender, tally] of tallies) await tally.addEmpty(contender, frames);
  }
  console.log(`\nframes without a symbol (${kinds.join(", ")}): ${wanted}`);
  for (const [{ name }, { wrong, heldBack, milliseconds }] of tallies) {
    const cost = (milliseconds / wanted).toFixed(1);
    console.log(`  ${name}: ${wrong.length} texts, ${heldBack.length} held back, ${cost} ms CPU`);
  }
  return tallies;
}

function printTables(tallies: Tallies, perCell: number): void {
  const names = [...tallies.keys()].map(({ name }) => name.padStart(22)).join("");
  const print = (title: string, cells: readonly string[]): void =>
    console.log(title.padEnd(18) + cells.map((cell) => cell.padStart(22)).join(""));
  const each = [...tallies.values()];
  for (const [rows, others] of [
    [symbologies, degradations],
    [degradations, symbologies],
  ] as const) {
    const most = others.length * perCell;
    console.log(`\nread exactly, of ${most}`.padEnd(19) + names);
    for (const row of rows) {
      print(
        row,
        each.map(({ readOf }) => String(readOf.get(row) ?? 0)),
      );
    }
  }
  console.log();
  print(
    "read exactly",
    each.map(({ read, pictures }) => `${read} of ${pictures}`),
  );
  print(
    "wrong",
    each.map(({ wrong }) => String(wrong.length)),
  );
  print(
    "wrong, held back",
    each.map(({ heldBack }) => String(heldBack.length)),
  );
  print(
    "ms CPU a frame",
    each.map(({ milliseconds, pictures }) => (milliseconds / pictures).toFixed(1)),
  );
  for (const [{ name }, { wrong }] of tallies) {
    if (wrong.length > 0) console.log(`${name} gave ${JSON.stringify(wrong)}`);
  }
}

function printRatio(tallies: Tallies, ours: Contender, baseline: Contender): void {
  const [mine, theirs] = [tallies.get(ours)!, tallies.get(baseline)!];
  const code39 = ({ readOf }: Tally): number => readOf.get("HIBC Code 39") ?? 0;
  const all = (mine.read / theirs.read).toFixed(2);
  const four = ((mine.read - code39(mine)) / (theirs.read - code39(theirs))).toFixed(2);
  console.log(`${ours.name} to ${baseline.name}: ${all}; without Code 39 ${four} (bar 1.15)`);
}
