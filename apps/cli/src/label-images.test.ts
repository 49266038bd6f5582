import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import bwipjs from "bwip-js/node";
import jpeg from "jpeg-js";
import { PNG } from "pngjs";
import { readLabelImages } from "./label-images.ts";

const options = { today: "2026-06-15", associations: "defer" } as const;
const folder = mkdtempSync(path.join(tmpdir(), "tubule-images-"));
const fileOf = (name: string): string => path.join(folder, name);

async function drawPng(bcid: string, text: string): Promise<PNG> {
  const drawn = { bcid, text, parse: text.startsWith("("), scale: 3, padding: 10, height: 12 };
  return PNG.sync.read(await bwipjs.toBuffer({ ...drawn, backgroundcolor: "ffffff" }));
}

/** One above the other, as on a label. */
function stack(upper: PNG, lower: PNG): PNG {
  const both = new PNG({
    width: Math.max(upper.width, lower.width),
    height: upper.height + lower.height,
  });
  both.data.fill(255);
  PNG.bitblt(upper, both, 0, 0, upper.width, upper.height, 0, 0);
  PNG.bitblt(lower, both, 0, 0, lower.width, lower.height, 0, upper.height);
  return both;
}

beforeAll(async () => {
  const matrix = await drawPng("gs1datamatrix", "(01)09506000134352(10)LOT/7(17)261231");
  const bars = await drawPng("ean13", "9506000134352");
  writeFileSync(fileOf("both.png"), PNG.sync.write(stack(matrix, bars)));
  writeFileSync(fileOf("matrix.jpg"), jpeg.encode(matrix, 80).data);
  writeFileSync(fileOf("blank.png"), PNG.sync.write(new PNG({ width: 200, height: 200 })));
  writeFileSync(fileOf("cut.png"), PNG.sync.write(matrix).subarray(0, 200));
  // Bars on glass: what is not black is not there.
  const glass = new PNG({ width: bars.width, height: bars.height });
  for (let at = 0; at < bars.data.length; at += 4) glass.data[at + 3] = 255 - bars.data[at]!;
  writeFileSync(fileOf("glass.png"), PNG.sync.write(glass));
});
afterAll(() => rmSync(folder, { recursive: true }));

async function read(...names: string[]) {
  const answers: object[] = [];
  const counts = await readLabelImages(names.map(fileOf), options, (line) => {
    const answer: object = JSON.parse(line);
    answers.push(answer);
  });
  return { answers, counts };
}

const matrixAnswer = {
  sure: true,
  ok: true,
  scheme: "gs1",
  fields: { gtin: "09506000134352", lot: "LOT/7", expiry: { date: "2026-12-31" } },
  warnings: [],
};
const barsAnswer = {
  sure: true,
  ok: true,
  scheme: "gtin",
  fields: { gtin: "09506000134352" },
  warnings: [],
};

test("a picture gives one answer for each symbol, as a line of text does", async () => {
  const { answers, counts } = await read("both.png");
  const file = fileOf("both.png");
  expect(answers).toHaveLength(2);
  expect(answers).toContainEqual({ file, ...barsAnswer });
  expect(answers).toContainEqual(expect.objectContaining({ file, sure: true, scheme: "gs1" }));
  expect(counts).toEqual({ read: 2, empty: 0 });
});

test("JPEG and PNG on a clear ground are read", async () => {
  const { answers, counts } = await read("matrix.jpg", "glass.png");
  expect(answers).toMatchObject([
    { file: fileOf("matrix.jpg"), ...matrixAnswer },
    { file: fileOf("glass.png"), ...barsAnswer },
  ]);
  expect(counts).toEqual({ read: 2, empty: 0 });
});

test("a picture without a symbol says so", async () => {
  const { answers, counts } = await read("blank.png");
  const file = fileOf("blank.png");
  expect(answers).toEqual([{ file, ok: false, error: { kind: "no_symbol" } }]);
  expect(counts).toEqual({ read: 0, empty: 1 });
});

test("what is no whole picture is named", async () => {
  await expect(read("none.png")).rejects.toThrow(/none\.png cannot be read/);
  await expect(read("cut.png")).rejects.toThrow(/cut\.png is not a whole PNG or JPEG/);
});
