/** Where everything stands on one of the practice's own labels, whatever its size. */
import { ascentEms, type Drawing, type DrawnSymbol, type MeasureText } from "./drawing.ts";
import type { LabelTexts } from "./label-texts.ts";
import { placeRows, sizesOf, type Block } from "./text-rows.ts";

/** The label's size, and the dot of the printer that the symbol's modules are made of. */
export interface LabelSize {
  widthUm: number;
  heightUm: number;
  dotUm: number;
}

/**
 * Sizes cut for one thing, in micrometres: a bottle of 5 ml, the barrel or flag of a syringe, the
 * edge of a shelf or a tray. Common practice, no source.
 */
export const labelSizesUm = {
  bottle: { widthUm: 45_000, heightUm: 20_000 },
  syringe: { widthUm: 40_000, heightUm: 12_000 },
  place: { widthUm: 60_000, heightUm: 35_000 },
} as const;

/** The layout, or what the label is too small for. */
export type LabelLayout = { ok: true; drawing: Drawing } | { ok: false; lacks: "symbol" | "texts" };

/**
 * The width of a module: usual, least and most. Source: GS1 General Specifications, symbol
 * specification for healthcare items (from memory: 0.254 to 0.990 mm); 0.33 mm by choice, so that
 * a tablet's camera reads it.
 */
export const moduleWidths = { usual: 330, least: 250, most: 990 } as const;

/** The smallest size of text, some four points: common practice, no source. */
const leastEmUm = 1_400;
const mostEmUm = 4_500;
/** A whole title does not get smaller than this, a shortened one not larger. */
const titleEmUm = { whole: 1_700, shortened: 2_000 } as const;
const emStep = 0.94;

/** A larger part of the width is the symbol's only where it must be. */
const usualShare = 0.2;

/**
 * Lays out one label. The symbol stands at the left with a quiet zone of a module and more, its
 * modules a whole number of dots, not under 0.33 mm wide unless the label is too small for that,
 * and never under 0.25 mm. The texts beside it are as large as they can be; the title is shortened
 * with an ellipsis where it has to be, the further line and then empty lines to write on are left
 * out. The lot, the code and the use-by date are whole on every label, or it is refused.
 */
export function layOutLabel(texts: LabelTexts, size: LabelSize, measure: MeasureText): LabelLayout {
  const marginUm = Math.min(1_500, Math.max(600, 0.06 * Math.min(size.widthUm, size.heightUm)));
  const module = moduleFor(texts.symbol.length, size, marginUm);
  if (module === undefined) return { ok: false, lacks: "symbol" };
  const given = { size, marginUm, module, measure: remembering(measure) };
  for (const content of lessAndLess(texts)) {
    for (const candidate of candidatesFor(content)) {
      const drawing = tryCandidate(candidate, { content, ...given });
      if (drawing) return { ok: true, drawing };
    }
  }
  return { ok: false, lacks: "texts" };
}

/** The same texts are tried in many sizes: a width in ems is measured once. */
function remembering(measure: MeasureText): MeasureText {
  const known = { regular: new Map<string, number>(), bold: new Map<string, number>() };
  return (text, weight) => {
    const ems = known[weight].get(text) ?? measure(text, weight);
    known[weight].set(text, ems);
    return ems;
  };
}

/** The module's width in micrometres: as wide as its share of the label allows. */
function moduleFor(count: number, size: LabelSize, marginUm: number): number | undefined {
  const { dotUm } = size;
  const side = Math.min(size.heightUm, size.widthUm);
  const wanted = Math.min(moduleWidths.most, (usualShare * size.widthUm) / count);
  const usual = Math.ceil(moduleWidths.usual / dotUm);
  // Within the margin, and with its quiet zone on whole dots within the label.
  const most = Math.floor(
    Math.min((side - 2 * marginUm) / count, (side - 2 * dotUm) / (count + 2)) / dotUm,
  );
  const dots = Math.min(most, Math.max(usual, Math.floor(wanted / dotUm)));
  return dots * dotUm < moduleWidths.least ? undefined : dots * dotUm;
}

/** The content with ever less of what may be left out. */
function lessAndLess(texts: LabelTexts): LabelTexts[] {
  const filled = texts.dates.filter(({ value }) => value !== "");
  const contents = [texts];
  if (texts.line !== "") contents.push({ ...texts, line: "" });
  if (filled.length < texts.dates.length) contents.push({ ...texts, line: "", dates: filled });
  return contents;
}

interface Candidate {
  emUm: number;
  titleLines: 1 | 2;
  shortened: boolean;
  /** Each fact on a row of its own, or one after the other. */
  packed: boolean;
  codeUnderSymbol: boolean;
}

/** Best first: a whole title in large letters down to a shortened one in the smallest. */
function* candidatesFor(content: LabelTexts): Generator<Candidate> {
  const largest = content.lot === null ? mostEmUm : 0.7 * mostEmUm;
  const titles = [
    { titleLines: 2, shortened: false, sizes: sizesOf(largest, titleEmUm.whole, emStep) },
    { titleLines: 2, shortened: true, sizes: sizesOf(titleEmUm.shortened, leastEmUm, emStep) },
    { titleLines: 1, shortened: true, sizes: sizesOf(titleEmUm.shortened, leastEmUm, emStep) },
  ] as const;
  for (const { sizes, ...title } of titles) {
    for (const emUm of sizes) {
      for (const packed of [false, true]) {
        for (const codeUnderSymbol of [false, true]) {
          yield { ...title, emUm, packed, codeUnderSymbol };
        }
      }
    }
  }
}

interface Asked {
  content: LabelTexts;
  size: LabelSize;
  marginUm: number;
  module: number;
  measure: MeasureText;
}

function tryCandidate(candidate: Candidate, asked: Asked): Drawing | undefined {
  const { content, size, marginUm, module, measure } = asked;
  const { emUm, codeUnderSymbol } = candidate;
  const symbolUm = content.symbol.length * module;
  const codeUm = measure(content.code, "bold") * emUm;
  const leftUm = codeUnderSymbol ? Math.max(symbolUm, codeUm) : symbolUm;
  const heightUm = size.heightUm - 2 * marginUm;
  const edgeUm = Math.max(marginUm, module + size.dotUm);
  const left: Block = { heightUm: symbolUm, widthUm: leftUm, texts: [], rules: [] };
  if (codeUnderSymbol) {
    const gapUm = 2 * module;
    const text = { text: content.code, xUm: 0, emUm, widthUm: codeUm, weight: "bold" as const };
    left.texts.push({ ...text, baselineUm: symbolUm + gapUm + ascentEms * emUm });
    left.heightUm += gapUm + 1.17 * emUm;
    if (left.heightUm > size.heightUm - 2 * edgeUm) return undefined;
  }
  const rightX = edgeUm + leftUm + Math.max(2 * module, 0.5 * emUm) + size.dotUm;
  const right = placeRows(content, {
    ...candidate,
    leastEmUm,
    widthUm: size.widthUm - marginUm - rightX,
    heightUm,
    measure,
  });
  if (!right) return undefined;
  const leftY = (size.heightUm - left.heightUm) / 2;
  const rightY = marginUm + (heightUm - right.heightUm) / 2;
  const symbol = onDots({ xUm: edgeUm, yUm: leftY, moduleUm: module, rows: content.symbol }, size);
  return {
    widthUm: size.widthUm,
    heightUm: size.heightUm,
    symbols: [symbol],
    texts: [
      ...left.texts.map((each) => moved(each, symbol.xUm, leftY)),
      ...right.texts.map((each) => moved(each, rightX, rightY)),
    ],
    rules: right.rules.map((rule) => ({ ...rule, xUm: rule.xUm + rightX, yUm: rule.yUm + rightY })),
  };
}

const moved = <T extends { xUm: number; baselineUm: number }>(
  text: T,
  x: number,
  y: number,
): T => ({
  ...text,
  xUm: text.xUm + x,
  baselineUm: text.baselineUm + y,
});

/** A symbol's corner on the printer's grid: otherwise its modules would differ by a dot. */
function onDots(symbol: DrawnSymbol, { dotUm }: LabelSize): DrawnSymbol {
  const grid = (um: number) => Math.floor(um / dotUm + 1e-6) * dotUm;
  return { ...symbol, xUm: grid(symbol.xUm + dotUm - 1e-3), yUm: grid(symbol.yUm) };
}
