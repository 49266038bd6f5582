/**
 * Labels as they come out of a printer: rendered from PDF and ZPL by programs of others, and read
 * back by two decoders.
 */
import { beforeAll, describe, expect, test } from "@jest/globals";
import bwipjs from "bwip-js/node";
import fc from "fast-check";
import { ready } from "zpl-renderer-js";
import {
  builtInSheets,
  labelSizesUm,
  layOutLabel,
  makeOwnCode,
  ownElement,
  placeOnSheet,
  readOwnCode,
  type OwnKind,
} from "#domain";
import { encodeElementString } from "#labels";
import { LabelDocumentQuery, type LabelContent } from "#contracts/label-printing";
import type { QueryOf } from "#contracts/operations";
import type { SentFile } from "../apps/api/src/http/file.ts";
import { drawLabels } from "../apps/api/src/labels/draw-labels.ts";
import { textsOf } from "../apps/api/src/labels/label-content.ts";
import { drawDocument } from "../apps/api/src/labels/label-document.ts";
import { loadTypeface } from "../apps/api/src/drawing/typeface.ts";
import {
  cut,
  pictureOfPng,
  readWithLibrary,
  readWithWasm,
  renderPdf,
  type Picture,
} from "./helpers/read-back.ts";

const at = new Date("2026-06-15T08:00:00.000Z");
const language = "en";
const title = "Two-step primer, water-based ≥ 5 ml ł Ω";

function contentOf(kind: OwnKind, counter: number, told: Partial<LabelContent> = {}): LabelContent {
  const isContainer = kind === "container";
  return {
    subject: { kind, id: "01999999-9999-7999-8999-999999999999" },
    code: makeOwnCode(kind, counter),
    title,
    lot: isContainer ? "DF-118O" : null,
    useBy: isContainer ? { date: "2027-03-31", precision: "month" } : null,
    openedOn: null,
    useUntil: null,
    line: "",
    ...told,
  };
}

type Asked = QueryOf<"getLabelDocument">;
function documentOf(labels: LabelContent[], asked: Asked, copies = 1): Promise<SentFile> {
  const query = LabelDocumentQuery.parse(asked);
  const sheet = builtInSheets.find(({ id }) => id === query.sheet);
  return drawDocument({ copies, labels }, { query, sheet, language, at });
}

const dotUmOf = { "203": 125, "300": 25_400 / 300, "600": 25_400 / 600 } as const;
type Dpi = keyof typeof dotUmOf;
type Size = Parameters<typeof drawLabels>[1];
const sizeOf = (name: keyof typeof labelSizesUm, dpi: Dpi): Size => ({
  ...labelSizesUm[name],
  dotUm: dotUmOf[dpi],
});
const cellOf = (sheet: { labelWidthUm: number; labelHeightUm: number }, dpi: Dpi): Size => ({
  widthUm: sheet.labelWidthUm,
  heightUm: sheet.labelHeightUm,
  dotUm: dotUmOf[dpi],
});
const elementStringOf = (code: string): string => encodeElementString([ownElement(code)]);

/**
 * Both decoders give the element string of the code and nothing else: one from the whole label, the
 * other, which looks for a symbol in the middle of its picture, from the symbol and its quiet zone.
 */
async function expectCode(picture: Picture, content: LabelContent, size: Size): Promise<void> {
  const { code } = content;
  const text = elementStringOf(code);
  expect([code, await readWithWasm(picture)]).toEqual([code, [`]d2${text}`]]);
  const [drawing] = await drawLabels([content], size, language);
  const { xUm, yUm, moduleUm, rows } = drawing!.symbols[0]!;
  const dots = (um: number) => Math.round((um / size.widthUm) * picture.width);
  const side = dots((rows.length + 2) * moduleUm);
  const symbol = { x: dots(xUm - moduleUm), y: dots(yUm - moduleUm), width: side, height: side };
  const plain = readWithLibrary(cut(picture, symbol)).replace("\u001d", "");
  expect([code, plain]).toEqual([code, text]);
  expect(readOwnCode(plain)?.code).toBe(code);
}

const kinds = ["container", "location", "tray"] as const;
const sizes = Object.keys(labelSizesUm) as (keyof typeof labelSizesUm)[];

test("what the symbols hold is valid GS1, as the encoder's own check sees it", () => {
  for (const kind of kinds) {
    const { ai, value } = ownElement(makeOwnCode(kind, 4711));
    expect(bwipjs.raw({ bcid: "gs1datamatrix", text: `(${ai})${value}` })).toHaveLength(1);
  }
  // The same check refuses what is wrong, so that its consent means something.
  expect(() => bwipjs.raw({ bcid: "gs1datamatrix", text: "(01)09506000134353" })).toThrow();
});

describe.each(["203", "300"] as const)("printed with %s dots to the inch", (dpi) => {
  const labels = kinds.map((kind, index) => contentOf(kind, 100 + index));

  test.each(sizes)(
    "a roll of the size %s is read back from its pages",
    async (size) => {
      const file = await documentOf(labels, { format: "roll", size, dotsPerInch: dpi });
      const pages = await renderPdf(file.bytes, Number(dpi));
      expect(pages).toHaveLength(3);
      for (const [index, page] of pages.entries()) {
        const { widthUm, heightUm } = labelSizesUm[size];
        expect(Math.abs(page.widthMm - widthUm / 1000)).toBeLessThan(0.1);
        expect(Math.abs(page.heightMm - heightUm / 1000)).toBeLessThan(0.1);
        await expectCode(page.picture, labels[index]!, sizeOf(size, dpi));
      }
    },
    20_000,
  );

  test.each(sizes)("a PNG of the size %s is read back, and states its resolution", async (size) => {
    const file = await documentOf(labels, { format: "png", size, dotsPerInch: dpi });
    await expectCode(pictureOfPng(file.bytes), labels[0]!, sizeOf(size, dpi));
    const header = Buffer.from(file.bytes);
    expect(header.toString("latin1", 37, 41)).toBe("pHYs");
    const dotsPerMetre = { "203": 8_000, "300": 11_811 }[dpi];
    expect(header.readUInt32BE(41)).toBe(dotsPerMetre);
  });
});

describe("a PDF", () => {
  test("says product, lot and dates as text that can be searched, in letters of any of its scripts", async () => {
    const open = { openedOn: "2026-06-01", useUntil: "2026-07-01" };
    const labels = [contentOf("container", 1), contentOf("container", 2, open)];
    const file = await documentOf(labels, { format: "roll" });
    const [sealed, opened] = await renderPdf(file.bytes, 72);
    const textOf = (text: string) => text.replaceAll(/\s+/g, " ");
    for (const text of ["Two-step primer,", "≥", "ł", "Ω", "LOT DF-118O", "Use by 2027-03"]) {
      expect(textOf(sealed!.text)).toContain(text);
    }
    expect(sealed!.text).not.toContain("2027-03-31");
    expect(textOf(opened!.text)).toContain("Opened 2026-06-01");
    expect(textOf(opened!.text)).toContain("Use until 2026-07-01");
  });

  test.each(["203", "300"] as const)(
    "of a sheet has each label in its place, seen with %s dots to the inch",
    async (dpi) => {
      const sheet = builtInSheets.find(({ id }) => id === "a4-5x13")!;
      const labels = Array.from({ length: 8 }, (_, index) => contentOf("container", index));
      // Two of the sheet's labels are left: the rest goes to a second page.
      const asked = { format: "sheet", sheet: sheet.id, startAt: 64, dotsPerInch: dpi } as const;
      const pages = await renderPdf((await documentOf(labels, asked)).bytes, Number(dpi));
      expect(pages.map(({ widthMm, heightMm }) => [widthMm, heightMm].map(Math.round))).toEqual([
        [210, 297],
        [210, 297],
      ]);
      const dots = (um: number) => Math.round((um / 25_400) * Number(dpi));
      for (const [index, label] of labels.entries()) {
        const { page, xUm, yUm } = placeOnSheet(sheet, 63 + index);
        const size = { width: dots(sheet.labelWidthUm), height: dots(sheet.labelHeightUm) };
        const cell = { x: dots(xUm), y: dots(yUm), ...size };
        await expectCode(cut(pages[page]!.picture, cell), label, cellOf(sheet, dpi));
      }
      const first = { x: 0, y: 0, width: dots(210_000), height: dots(sheet.pitchYUm * 12) };
      expect(cut(pages[0]!.picture, first).grey.every((level) => level > 250)).toBe(true);
    },
  );

  test.each(builtInSheets.map(({ id }) => id))("of the sheet %s is read back", async (id) => {
    const sheet = builtInSheets.find((each) => each.id === id)!;
    const labels = [contentOf("container", 31)];
    const file = await documentOf(labels, { format: "sheet", sheet: id });
    const [page] = await renderPdf(file.bytes, 300);
    const dots = (um: number) => Math.round((um / 25_400) * 300);
    const { xUm, yUm } = placeOnSheet(sheet, 0);
    const size = { width: dots(sheet.labelWidthUm), height: dots(sheet.labelHeightUm) };
    const cell = cut(page!.picture, { x: dots(xUm), y: dots(yUm), ...size });
    await expectCode(cell, labels[0]!, cellOf(sheet, "300"));
  });

  test("has as many of each label as copies, from the label on that is asked for", async () => {
    const labels = [1, 2, 3].map((counter) => contentOf("container", counter));
    const file = await documentOf(labels, { format: "roll", from: 2 }, 2);
    const pages = await renderPdf(file.bytes, 203);
    const codes = await Promise.all(pages.map(({ picture }) => readWithWasm(picture)));
    expect(codes.flat()).toEqual(
      [0, 1, 1, 2, 2].map((index) => `]d2${elementStringOf(labels[index]!.code)}`),
    );
  });
});

/** Everything a label printer would do, and what it burns. */
async function burn(zpl: string, { widthMm, heightMm }: { widthMm: number; heightMm: number }) {
  const { api } = await ready;
  const images = await api.zplToBase64MultipleAsync(zpl, widthMm, heightMm, 8);
  return images.map((each) => pictureOfPng(Buffer.from(each, "base64")));
}
/** The only form that our ZPL has: settings, one graphic, how many of it. */
const onlyGraphics =
  /^(\^XA\^PW\d+\^LL\d+\^LH0,0\^FO0,0\^GFA,\d+,\d+,\d+,[0-9A-Zg-z,!:]+\^FS\^PQ\d+,0,0,N\^XZ\n)+$/;

describe("ZPL", () => {
  test.each(sizes)("of the size %s burns a label that is read back", async (size) => {
    const labels = kinds.map((kind, index) => contentOf(kind, 200 + index));
    const file = await documentOf(labels, { format: "zpl", size, dotsPerInch: "203" });
    const zpl = Buffer.from(file.bytes).toString();
    expect(zpl).toMatch(onlyGraphics);
    const { widthUm, heightUm } = labelSizesUm[size];
    const burnt = await burn(zpl, { widthMm: widthUm / 1000, heightMm: heightUm / 1000 });
    expect(burnt).toHaveLength(3);
    for (const [index, picture] of burnt.entries()) {
      expect([picture.width, picture.height]).toEqual([widthUm / 125, heightUm / 125]);
      await expectCode(picture, labels[index]!, sizeOf(size, "203"));
    }
  });

  test("burns the very dots of the PNG", async () => {
    const labels = [contentOf("container", 5)];
    const png = await documentOf(labels, { format: "png", dotsPerInch: "203" });
    const zpl = await documentOf(labels, { format: "zpl", dotsPerInch: "203" });
    const shown = pictureOfPng(png.bytes);
    const [burnt] = await burn(Buffer.from(zpl.bytes).toString(), { widthMm: 45, heightMm: 20 });
    const dark = (level: number) => 255 - level >= 105;
    const differing = burnt!.grey.filter((level, at) => dark(level) !== dark(shown.grey[at]!));
    expect(differing.length).toBe(0);
  });

  test("counts copies in one label, and begins within them", async () => {
    const labels = [1, 2].map((counter) => contentOf("container", counter));
    const file = await documentOf(labels, { format: "zpl", from: 3 }, 4);
    const counts = [
      ...Buffer.from(file.bytes)
        .toString()
        .matchAll(/\^PQ(\d+),/g),
    ];
    expect(counts.map(([, count]) => count)).toEqual(["2", "4"]);
  });

  const hostile = [
    "^XZ^XA^FO0,0^FDforged^FS^XZ",
    "~HS~JA^JUS",
    "Primer^CC/~CT*",
    "\u001b%-12345X@PJL",
    "line\r\nbreak\u0000\u001d\u0004",
    "_5EXZ \\& >;>8",
  ];
  test.each(hostile)("takes nothing that stands in a name for a command: %j", async (text) => {
    const told = { title: text, lot: text.slice(0, 20), line: text };
    const labels = [contentOf("container", 77, told)];
    const file = await documentOf(labels, { format: "zpl", dotsPerInch: "203" });
    const zpl = Buffer.from(file.bytes).toString();
    expect(zpl).toMatch(onlyGraphics);
    const burnt = await burn(zpl, { widthMm: 45, heightMm: 20 });
    expect(burnt).toHaveLength(1);
    await expectCode(burnt[0]!, labels[0]!, sizeOf("bottle", "203"));
  });

  test("is of that form whatever a label says", async () => {
    const anyText = fc.string({ unit: "binary", maxLength: 30 });
    await fc.assert(
      fc.asyncProperty(anyText, anyText, async (name, line) => {
        const labels = [contentOf("container", 78, { title: name, line })];
        const file = await documentOf(labels, { format: "zpl", dotsPerInch: "203" });
        expect(Buffer.from(file.bytes).toString()).toMatch(onlyGraphics);
      }),
      { numRuns: 20 },
    );
  }, 30_000);
});

describe("an SVG", () => {
  test("is of the label's size, and nothing in a name becomes markup", async () => {
    const told = { title: `"><script>alert(1)</script>&\u0007`, lot: "<L>" };
    const file = await documentOf([contentOf("container", 9, told)], { format: "svg" });
    const svg = Buffer.from(file.bytes).toString();
    expect(svg).toMatch(/^<svg [^>]*width="45mm" height="20mm"[^>]*viewBox="0 0 45 20"/);
    for (const text of ["<script", "\u0007"]) expect(svg).not.toContain(text);
    expect([...svg.matchAll(/<(\/?\w+)/g)].map(([, name]) => name)).toEqual([
      "svg",
      ...svg.match(/<path/g)!.map(() => "path"),
      "/svg",
    ]);
  });
});

describe("the layout with the real typeface", () => {
  beforeAll(() => loadTypeface());

  test("of a thousand random lots puts each lot on its label whole", async () => {
    const lots = fc.sample(fc.stringMatching(/^[A-Z0-9/.-]{1,20}$/), { numRuns: 1_000, seed: 7 });
    const { measure } = await loadTypeface();
    const texts = await textsOf(contentOf("container", 1), "de");
    const size = sizeOf("bottle", "300");
    for (const value of lots) {
      const layout = layOutLabel({ ...texts, lot: { word: "LOT", value } }, size, measure);
      const drawn = layout.ok ? layout.drawing.texts : [];
      expect(drawn.map(({ text }) => text).join("")).toContain(`LOT ${value}`);
      for (const { xUm, widthUm, baselineUm } of drawn) {
        expect(xUm + widthUm).toBeLessThanOrEqual(size.widthUm);
        expect(baselineUm).toBeLessThan(size.heightUm);
      }
    }
  }, 30_000);

  test("knows a letter of every language that it promises", async () => {
    const { outlinesOf } = await loadTypeface();
    const missing = outlinesOf("\u{1f9b7}", "regular")[0]!.length;
    const letters = Array.from("ÄÖÜßéñçøåłşčžőțΩ≥°µЖЯ…×");
    const without = letters.filter((letter) => outlinesOf(letter, "bold")[0]!.length === 0);
    expect([missing > 0, without]).toEqual([true, []]);
  });
});
