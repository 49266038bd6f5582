import { createRequire } from "node:module";
import type { Font, Glyph } from "fontkit";
import type { MeasureText, TextWeight } from "#domain";

/** A closed outline of a glyph: points in ems, y upwards from the baseline. */
export type Contour = readonly (readonly [x: number, y: number])[];

/** DejaVu Sans Condensed: its licence allows embedding; Latin, Greek and Cyrillic letters. */
export interface Typeface {
  measure: MeasureText;
  /** The outlines of a text that starts at 0 on the baseline, letter by letter. */
  outlinesOf: (text: string, weight: TextWeight) => Contour[][];
}

const require = createRequire(import.meta.url);
export const fontFile = (weight: TextWeight): string =>
  weight === "bold"
    ? require.resolve("dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf")
    : require.resolve("dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf");

let loading: Promise<Typeface> | undefined;

/** The typeface, read when it is first needed: a server that prints nothing does without. */
export function loadTypeface(): Promise<Typeface> {
  return (loading ??= load());
}

interface KnownGlyph {
  advance: number;
  contours: () => Contour[];
}

async function load(): Promise<Typeface> {
  const { openSync } = await import("fontkit");
  const glyphs = {
    regular: glyphsOf(openSync(fontFile("regular"))),
    bold: glyphsOf(openSync(fontFile("bold"))),
  };
  const spell = (text: string, weight: TextWeight) =>
    Array.from(text, (character) => glyphs[weight](character.codePointAt(0)!));
  return {
    measure: (text, weight) => spell(text, weight).reduce((sum, { advance }) => sum + advance, 0),
    outlinesOf: (text, weight) => {
      let x = 0;
      return spell(text, weight).map(({ advance, contours }) => {
        const left = x;
        x += advance;
        return contours().map((contour) => contour.map(([px, py]) => [px + left, py] as const));
      });
    },
  };
}

/** Each letter once: one for one and without kerning, so that every format sets it alike. */
function glyphsOf(font: Font): (codePoint: number) => KnownGlyph {
  const known = new Map<number, KnownGlyph>();
  return (codePoint) => {
    let one = known.get(codePoint);
    if (!one) {
      const glyph = font.glyphForCodePoint(codePoint);
      let flat: Contour[] | undefined;
      const contours = () => (flat ??= flatten(glyph, font.unitsPerEm));
      known.set(codePoint, (one = { advance: glyph.advanceWidth / font.unitsPerEm, contours }));
    }
    return one;
  };
}

const curveSteps = 6;

/** Curves as short lines: at the size of a label's letters no printer shows the difference. */
function flatten(glyph: Glyph, unitsPerEm: number): Contour[] {
  const contours: [number, number][][] = [];
  for (const { command, args } of glyph.path.commands) {
    const at = args.map((each) => each / unitsPerEm);
    if (command === "closePath") continue;
    if (command === "moveTo") contours.push([[at[0]!, at[1]!]]);
    else if (command === "lineTo") contours.at(-1)!.push([at[0]!, at[1]!]);
    else contours.at(-1)!.push(...pointsOfCurve([...contours.at(-1)!.at(-1)!, ...at]));
  }
  return contours;
}

/** Points along a Bézier curve of any degree (de Casteljau's construction), its start left out. */
function pointsOfCurve(at: readonly number[]): [number, number][] {
  const controls = Array.from({ length: at.length / 2 }, (_, index): [number, number] => [
    at[2 * index]!,
    at[2 * index + 1]!,
  ]);
  return Array.from({ length: curveSteps }, (_, step) => {
    const t = (step + 1) / curveSteps;
    let points = controls;
    while (points.length > 1) {
      points = points.slice(1).map(([x, y], index) => {
        const [px, py] = points[index]!;
        return [px + t * (x - px), py + t * (y - py)];
      });
    }
    return points[0]!;
  });
}
