/** The decoders on a small fixed set of generated pictures; `npm run bench -- decode` has many. */
import { beforeAll, describe, expect, test } from "@jest/globals";
import { makeScriptReader, readPicture } from "#decode";
import { makeContenders, Tally, type Contender } from "./bench/decode-trial.ts";
import { makeDecoyPicture, makeLabelPicture, type Degradation } from "./bench/label-pictures.ts";
import { decoys, type Decoy } from "./bench/label-scenes.ts";
import { drawAlone, makeSymbol, symbologies, type Symbology } from "./bench/label-symbols.ts";
import { randomFrom } from "./bench/random.ts";

let contenders: Awaited<ReturnType<typeof makeContenders>>;
beforeAll(async () => {
  contenders = await makeContenders();
});

/** One or two of each kind; which, and with which seed, was settled before anything was counted. */
const set: readonly [Symbology, Degradation][] = [
  ["GS1 DataMatrix", "small modules"],
  ["HIBC DataMatrix", "noise"],
  ["Digital Link QR", "low contrast"],
  ["GS1-128", "rotation"],
  ["HIBC Code 128", "glare"],
  ["HIBC Code 39", "noise"],
  ["EAN-13", "rotation"],
  ["EAN-13", "none"],
];

test("our passes read at least 1.15 times as many labels as one pass, and none wrong", async () => {
  const tallies = new Map<Contender, Tally>();
  const { baseline, still, live } = contenders;
  for (const contender of [baseline, still, live]) tallies.set(contender, new Tally());
  for (const [at, [symbology, degradation]] of set.entries()) {
    const picture = makeLabelPicture(symbology, degradation, { seed: 500 + at, frames: 3 });
    for (const [contender, tally] of tallies) await tally.add(contender, picture);
  }
  const readBy = (contender: Contender): number => tallies.get(contender)!.read;
  expect(readBy(baseline)).toBeGreaterThan(0);
  expect(readBy(still)).toBeGreaterThanOrEqual(1.15 * readBy(baseline));
  expect(readBy(live)).toBeGreaterThanOrEqual(1.15 * readBy(baseline));
  for (const contender of [still, live]) expect(tallies.get(contender)!.wrong).toEqual([]);
});

test.each(Object.keys(decoys) as Decoy[])("nothing is read in a frame of %s", async (kind) => {
  const { still, live } = contenders;
  const frame = makeDecoyPicture(kind, 77);
  expect(await still.read([frame])).toEqual([]);
  expect(await live.read([frame, frame, frame, frame])).toEqual([]);
});

describe("without WebAssembly", () => {
  test.each(symbologies)("%s is read as a scanner sends it, or not at all", async (symbology) => {
    const reader = makeScriptReader();
    for (let seed = 0; seed < 2; seed += 1) {
      const { expected, modules } = makeSymbol(symbology, randomFrom(seed));
      const reads = await readPicture(reader, drawAlone(modules));
      expect(reads.map(({ text, sure }) => [text, sure])).toEqual([[expected, true]]);
    }
  });

  test("a degraded label is read right or not at all", async () => {
    const tally = new Tally();
    for (const [at, [symbology, degradation]] of set.entries()) {
      if (at % 4 !== 0) continue;
      const picture = makeLabelPicture(symbology, degradation, { seed: 500 + at });
      await tally.add(contenders.withoutWasm, picture);
    }
    expect(tally.wrong).toEqual([]);
  });
});

test("several symbols of one picture are all read, each with its place", async () => {
  const { still } = contenders;
  const symbols = (["GS1 DataMatrix", "EAN-13", "GS1-128"] as const).map((symbology, at) =>
    makeSymbol(symbology, randomFrom(90 + at)),
  );
  const parts = symbols.map(({ modules }) => drawAlone(modules));
  const width = Math.max(...parts.map((part) => part.width));
  const height = parts.reduce((sum, part) => sum + part.height, 0);
  const grey = new Uint8ClampedArray(width * height).fill(255);
  let top = 0;
  for (const part of parts) {
    for (let row = 0; row < part.height; row += 1) {
      const line = part.grey.subarray(row * part.width, (row + 1) * part.width);
      grey.set(line, (top + row) * width);
    }
    top += part.height;
  }
  const answers = await still.read([{ grey, width, height }]);
  const texts = answers.filter(({ sure }) => sure).map(({ text }) => text);
  expect(texts.toSorted()).toEqual(symbols.map(({ expected }) => expected).toSorted());
});
