import { describe, expect, test } from "@jest/globals";
import { BarcodeFormat } from "@zxing/library";
import bwipjs from "bwip-js/node";
import { readLabel } from "#labels";
import { readWithLibrary, readWithWasm, type Picture } from "./helpers/read-back.ts";

const PIXELS_PER_MODULE = 3;
const QUIET_MODULES = 10;
const BAR_MODULES = 30;

/** Draws what bwip-js encodes: a matrix of modules, or bars and spaces in turn. */
function draw(bcid: string, text: string): Picture {
  const isBracketed = text.startsWith("(");
  const [symbol] = bwipjs.raw({ bcid, text, ...(isBracketed ? { parse: true } : {}) });
  if (symbol === undefined) throw new Error(`bwip-js drew nothing for ${bcid}`);
  if ("pixs" in symbol) {
    const { pixs, pixx, pixy } = symbol;
    return rasterOf(pixx, pixy, (x, y) => pixs[y * pixx + x] === 1);
  }
  const bars: boolean[] = [];
  for (const [index, width] of symbol.sbs.entries()) {
    for (let module = 0; module < width; module += 1) bars.push(index % 2 === 0);
  }
  return rasterOf(bars.length, BAR_MODULES, (x) => bars[x] === true);
}

function rasterOf(
  columns: number,
  rows: number,
  isDark: (x: number, y: number) => boolean,
): Picture {
  const width = (columns + 2 * QUIET_MODULES) * PIXELS_PER_MODULE;
  const height = (rows + 2 * QUIET_MODULES) * PIXELS_PER_MODULE;
  const grey = new Uint8ClampedArray(width * height).fill(255);
  for (let y = 0; y < rows * PIXELS_PER_MODULE; y += 1) {
    for (let x = 0; x < columns * PIXELS_PER_MODULE; x += 1) {
      const column = Math.floor(x / PIXELS_PER_MODULE);
      if (!isDark(column, Math.floor(y / PIXELS_PER_MODULE))) continue;
      const top = y + QUIET_MODULES * PIXELS_PER_MODULE;
      grey[top * width + x + QUIET_MODULES * PIXELS_PER_MODULE] = 0;
    }
  }
  return { grey, width, height };
}

const GS1_TEXT = "(01)09506000134352(17)261231(10)LOT/7(21)SN-0001";
const GS1_FIELDS = {
  gtin: "09506000134352",
  expiry: { date: "2026-12-31", precision: "day" },
  lot: "LOT/7",
  serial: "SN-0001",
};
const HIBC_TEXT = "A99912345/$$3271231LOT9/S4012";
const HIBC_FIELDS = {
  structure: "concatenated",
  lic: "A999",
  pcn: "1234",
  unit_of_measure: 5,
  expiry: { date: "2027-12-31", precision: "day" },
  lot: "LOT9",
  serial: "4012",
};

const SYMBOLS = [
  ["gs1datamatrix", GS1_TEXT, "]d2", GS1_FIELDS],
  ["gs1-128", GS1_TEXT, "]C1", GS1_FIELDS],
  ["gs1qrcode", GS1_TEXT, "]Q3", GS1_FIELDS],
  ["hibcdatamatrix", HIBC_TEXT, "]d1", HIBC_FIELDS],
  ["hibccode39", HIBC_TEXT, "]A1", HIBC_FIELDS],
  ["hibccode128", HIBC_TEXT, "]C0", HIBC_FIELDS],
  ["ean13", "9506000134352", "]E0", { gtin: "09506000134352" }],
  ["ean8", "96385074", "]E4", { gtin: "00000096385074" }],
  [
    "qrcode",
    "https://id.gs1.org/01/09506000134352/10/LOT%2F7?17=261231",
    "]Q1",
    { gtin: "09506000134352", lot: "LOT/7", expiry: { date: "2026-12-31", precision: "day" } },
  ],
] as const;

describe("a symbol drawn by bwip-js", () => {
  test.each(SYMBOLS)("as %s comes back through zxing-wasm", async (bcid, text, id, fields) => {
    const [raw] = await readWithWasm(draw(bcid, text));
    const result = readLabel(raw ?? "", { today: "2026-06-15", associations: "enforce" });
    expect(result).toMatchObject({ ok: true, symbology: id, fields, warnings: [] });
  });

  test.each([
    ["gs1datamatrix", GS1_TEXT, BarcodeFormat.DATA_MATRIX, GS1_FIELDS],
    ["gs1-128", GS1_TEXT, BarcodeFormat.CODE_128, GS1_FIELDS],
    ["hibcdatamatrix", HIBC_TEXT, BarcodeFormat.DATA_MATRIX, HIBC_FIELDS],
    ["hibccode39", HIBC_TEXT, BarcodeFormat.CODE_39, HIBC_FIELDS],
    ["ean13", "9506000134352", BarcodeFormat.EAN_13, { gtin: "09506000134352" }],
  ] as const)("as %s comes back through @zxing/library", (bcid, text, format, fields) => {
    const raw = readWithLibrary(draw(bcid, text), format);
    const result = readLabel(raw, { today: "2026-06-15", associations: "enforce" });
    expect(result).toMatchObject({ ok: true, fields });
  });
});
