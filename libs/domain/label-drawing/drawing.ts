/**
 * What stands on paper, in whole or broken micrometres from the upper left corner: symbols, texts
 * and filled rectangles. Every format (PDF, SVG, PNG, ZPL) draws these and nothing else.
 */

/** Two weights of one typeface. */
export type TextWeight = "regular" | "bold";

/** The width of a text in ems, by the typeface it will be drawn in. */
export type MeasureText = (text: string, weight: TextWeight) => number;

/** A text on its baseline; `emUm` is its size, `widthUm` how wide it will be. */
export interface DrawnText {
  text: string;
  xUm: number;
  baselineUm: number;
  emUm: number;
  widthUm: number;
  weight: TextWeight;
}

/** A two-dimensional symbol by its modules, row by row; true is dark. */
export interface DrawnSymbol {
  xUm: number;
  yUm: number;
  moduleUm: number;
  rows: readonly (readonly boolean[])[];
}

/** A filled rectangle. */
export interface DrawnRule {
  xUm: number;
  yUm: number;
  widthUm: number;
  heightUm: number;
}

/** One page or one label. */
export interface Drawing {
  widthUm: number;
  heightUm: number;
  symbols: readonly DrawnSymbol[];
  texts: readonly DrawnText[];
  rules: readonly DrawnRule[];
}

/**
 * How far a line of text reaches above and below its baseline, in ems: the ascent and descent that
 * DejaVu Sans Condensed states for itself.
 */
export const ascentEms = 0.928;
export const descentEms = 0.236;

/** The drawings of `parts`, each moved to its place, on one page of that size. */
export function composeDrawing(
  page: { widthUm: number; heightUm: number },
  parts: readonly { xUm: number; yUm: number; drawing: Drawing }[],
): Drawing {
  const moved = parts.map(({ xUm, yUm, drawing }) => ({
    symbols: drawing.symbols.map((each) => ({ ...each, xUm: each.xUm + xUm, yUm: each.yUm + yUm })),
    texts: drawing.texts.map((each) => ({
      ...each,
      xUm: each.xUm + xUm,
      baselineUm: each.baselineUm + yUm,
    })),
    rules: drawing.rules.map((each) => ({ ...each, xUm: each.xUm + xUm, yUm: each.yUm + yUm })),
  }));
  return {
    ...page,
    symbols: moved.flatMap(({ symbols }) => symbols),
    texts: moved.flatMap(({ texts }) => texts),
    rules: moved.flatMap(({ rules }) => rules),
  };
}
