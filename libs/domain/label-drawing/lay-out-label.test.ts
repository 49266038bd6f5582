import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { ascentEms, descentEms, type Drawing, type MeasureText } from "./drawing.ts";
import { labelSizesUm, layOutLabel, moduleWidths, type LabelSize } from "./lay-out-label.ts";
import type { LabelTexts } from "./label-texts.ts";

/** A stand-in for a typeface: narrow and wide letters, bold a tenth wider. */
const measure: MeasureText = (text, weight) =>
  Array.from(text).reduce(
    (sum, character) =>
      sum + (/[il1.,' ]/.test(character) ? 0.3 : /[MW@]/.test(character) ? 0.9 : 0.6),
    0,
  ) * (weight === "bold" ? 1.1 : 1);

const symbol = Array.from({ length: 14 }, (_row, y) =>
  Array.from({ length: 14 }, (_dot, x) => (x * 7 + y * 3) % 2 === 0),
);
const dots = { "203": 125, "300": 25_400 / 300, "600": 25_400 / 600 } as const;
const usual: LabelTexts = {
  symbol,
  code: "CK7-QW4X",
  title: "Two-step primer, water-based",
  lot: { word: "LOT", value: "DF-1180" },
  useBy: { word: "Use by", value: "2027-03" },
  dates: [
    { word: "Opened", value: "" },
    { word: "Use until", value: "" },
  ],
  line: "",
};
const onBottle: LabelSize = { ...labelSizesUm.bottle, dotUm: dots["300"] };

function drawn(texts: LabelTexts, size: LabelSize): Drawing {
  const layout = layOutLabel(texts, size, measure);
  if (!layout.ok) throw new Error(`too small for its ${layout.lacks}`);
  return layout.drawing;
}
const saidOn = ({ texts }: Drawing): string => texts.map(({ text }) => text).join("\n");

interface Box {
  what: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}
/** Everything with the room it takes: a symbol with its quiet zone, a text with its strokes. */
function boxesOf({ symbols, texts, rules }: Drawing): Box[] {
  return [
    ...symbols.map(({ xUm, yUm, moduleUm, rows }) => ({
      what: "symbol",
      left: xUm - moduleUm,
      top: yUm - moduleUm,
      right: xUm + (rows.length + 1) * moduleUm,
      bottom: yUm + (rows.length + 1) * moduleUm,
    })),
    ...texts.map(({ text, xUm, widthUm, baselineUm, emUm }) => ({
      what: text,
      left: xUm,
      right: xUm + widthUm,
      top: baselineUm - ascentEms * emUm,
      bottom: baselineUm + descentEms * emUm,
    })),
    ...rules.map(({ xUm, yUm, widthUm, heightUm }) => ({
      what: "rule",
      left: xUm,
      right: xUm + widthUm,
      top: yUm,
      bottom: yUm + heightUm,
    })),
  ];
}

const hair = 1e-3;
function faultsOf(drawing: Drawing): string[] {
  const boxes = boxesOf(drawing);
  const off = boxes.filter(
    ({ left, right, top, bottom }) =>
      left < -hair ||
      top < -hair ||
      right > drawing.widthUm + hair ||
      bottom > drawing.heightUm + hair,
  );
  const overlaps = boxes.flatMap((a, index) =>
    boxes
      .slice(0, index)
      .filter(
        (b) =>
          a.left < b.right - hair &&
          b.left < a.right - hair &&
          a.top < b.bottom - hair &&
          b.top < a.bottom - hair,
      )
      .map((b) => `${a.what} lies on ${b.what}`),
  );
  return [...off.map(({ what }) => `${what} leaves the label`), ...overlaps];
}

describe("a label", () => {
  test("of a bottle says the whole of it: product, code, lot, use-by date, lines to write on", () => {
    const drawing = drawn(usual, onBottle);
    const said = saidOn(drawing).replaceAll("\n", " ");
    for (const text of ["CK7-QW4X", "LOT DF-1180", "Use by 2027-03", "Opened", "Use until"]) {
      expect(said).toContain(text);
    }
    expect(said).toContain("Two-step primer, water-based");
    expect(drawing.rules.length).toBe(2);
    for (const rule of drawing.rules) expect(rule.widthUm).toBeGreaterThan(6_000);
    expect(faultsOf(drawing)).toEqual([]);
  });

  test.each(["203", "300", "600"] as const)(
    "has modules of whole dots of a printer with %s to the inch, on its dots",
    (dpi) => {
      for (const size of Object.values(labelSizesUm)) {
        const dotUm = dots[dpi];
        const [one] = drawn(usual, { ...size, dotUm }).symbols;
        for (const length of [one!.moduleUm, one!.xUm, one!.yUm]) {
          expect(Math.abs(length / dotUm - Math.round(length / dotUm))).toBeLessThan(1e-6);
        }
        expect(one!.moduleUm).toBeGreaterThanOrEqual(moduleWidths.usual);
        expect(one!.moduleUm).toBeLessThanOrEqual(moduleWidths.most);
      }
    },
  );

  test("has smaller modules where it is low, down to a quarter of a millimetre, then is refused", () => {
    const low = { widthUm: 30_000, dotUm: dots["300"] };
    const texts = { ...usual, lot: null, useBy: null, dates: [], title: "" };
    const [one] = drawn(texts, { ...low, heightUm: 5_200 }).symbols;
    expect(one!.moduleUm).toBeLessThan(moduleWidths.usual);
    expect(one!.moduleUm).toBeGreaterThanOrEqual(moduleWidths.least);
    const lower = { ...low, heightUm: 14 * moduleWidths.least + 1_000 };
    expect(layOutLabel(texts, lower, measure)).toEqual({ ok: false, lacks: "symbol" });
  });

  test("is filled where the container is open", () => {
    const dates = [
      { word: "Opened", value: "2026-10-01" },
      { word: "Use until", value: "2026-10-31" },
    ];
    const drawing = drawn({ ...usual, dates }, onBottle);
    expect(saidOn(drawing)).toContain("Opened 2026-10-01");
    expect(saidOn(drawing)).toContain("Use until 2026-10-31");
    expect(drawing.rules).toEqual([]);
  });

  test("shortens a long title with an ellipsis, never the lot", () => {
    const title = "A very long name of a product ".repeat(6);
    const lot = { word: "LOT", value: "ABCDEFGHIJKLMNOPQRST1234567890ABCDEFGHIJ" };
    const drawing = drawn({ ...usual, title, lot }, onBottle);
    expect(saidOn(drawing)).toContain("…");
    expect(saidOn(drawing).replaceAll("\n", "")).toContain(`LOT ${lot.value}`);
    expect(faultsOf(drawing)).toEqual([]);
  });

  test("leaves out the further line, then the lines to write on, before anything else", () => {
    const small = { widthUm: 25_400, heightUm: 10_000, dotUm: dots["300"] };
    const drawing = drawn({ ...usual, line: "a further line" }, small);
    expect(drawing.rules).toEqual([]);
    expect(saidOn(drawing)).not.toContain("further");
    expect(saidOn(drawing).replaceAll("\n", " ")).toContain("LOT DF-1180");
    const larger = drawn({ ...usual, line: "a further line" }, onBottle);
    expect(saidOn(larger)).toContain("a further line");
  });

  test("is refused where the lot cannot stand on it whole", () => {
    const lot = { word: "LOT", value: "M".repeat(40) };
    const size = { widthUm: 15_000, heightUm: 10_000, dotUm: dots["300"] };
    expect(layOutLabel({ ...usual, lot }, size, measure)).toEqual({ ok: false, lacks: "texts" });
  });
});

const word = fc.string({ unit: fc.constantFrom(..."abcdeMW1il-/. ".split("")), maxLength: 60 });
const contents: fc.Arbitrary<LabelTexts> = fc.record({
  symbol: fc.constant(symbol),
  code: fc.constant("CK7-QW4X"),
  title: word.map((text) => text.trim()),
  lot: fc.option(
    fc
      .string({ unit: fc.constantFrom(..."ABMW019-/.".split("")), minLength: 1, maxLength: 40 })
      .map((value) => ({ word: "LOT", value })),
  ),
  useBy: fc.option(
    fc.constantFrom("2027-03", "2027-03-31").map((value) => ({ word: "Use by", value })),
  ),
  dates: fc.constantFrom(
    [],
    usual.dates,
    usual.dates.map((each) => ({ ...each, value: "2026-10-01" })),
    [usual.dates[0]!, { word: "Use until", value: "2026-10-31" }],
  ),
  line: word.map((text) => text.trim()),
});
const sizes: fc.Arbitrary<LabelSize> = fc.record({
  widthUm: fc.integer({ min: 8_000, max: 110_000 }),
  heightUm: fc.integer({ min: 5_000, max: 60_000 }),
  dotUm: fc.constantFrom(...Object.values(dots)),
});

describe("whatever a label says and whatever its size", () => {
  test("nothing overlaps, nothing leaves it, and what must be on it is there", () => {
    let laidOut = 0;
    fc.assert(
      fc.property(contents, sizes, (texts, size) => {
        const layout = layOutLabel(texts, size, measure);
        if (!layout.ok) return;
        laidOut += 1;
        const { drawing } = layout;
        expect(faultsOf(drawing)).toEqual([]);
        const said = saidOn(drawing);
        expect(said).toContain(texts.code);
        if (texts.lot) expect(said.replaceAll("\n", "")).toContain(texts.lot.value);
        if (texts.useBy) expect(said).toContain(texts.useBy.value);
        for (const { value } of texts.dates) expect(said).toContain(value);
        expect(drawing.symbols[0]!.moduleUm).toBeGreaterThanOrEqual(moduleWidths.least);
        for (const { emUm } of drawing.texts) expect(emUm).toBeGreaterThanOrEqual(1_400 - hair);
      }),
      { numRuns: 400 },
    );
    expect(laidOut).toBeGreaterThan(200);
  }, 30_000);

  test("a size of ours takes every lot of up to forty characters", () => {
    fc.assert(
      fc.property(contents, fc.constantFrom("bottle", "place"), (texts, name) => {
        const size = { ...labelSizesUm[name as "bottle" | "place"], dotUm: dots["203"] };
        expect(layOutLabel(texts, size, measure).ok).toBe(true);
      }),
      { numRuns: 300 },
    );
  });
});
