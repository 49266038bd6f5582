import { setImmediate as breathe } from "node:timers/promises";
import { layOutLabel, type Drawing, type LabelSize } from "#domain";
import type { LabelContent } from "#contracts/label-printing";
import type { Language } from "#texts";
import { drawRaster } from "../drawing/draw-raster.ts";
import { drawZpl } from "../drawing/draw-zpl.ts";
import { loadTypeface } from "../drawing/typeface.ts";
import { Problem } from "../http/problem.ts";
import { textsOf } from "./label-content.ts";

/** Labels of one size, drawn; a problem where one of them is too small for what it must say. */
export async function drawLabels(
  contents: readonly LabelContent[],
  size: LabelSize,
  language: Language,
): Promise<Drawing[]> {
  const typeface = await loadTypeface();
  const drawings: Drawing[] = [];
  for (const content of contents) {
    const layout = layOutLabel(await textsOf(content, language), size, typeface.measure);
    if (!layout.ok) throw tooSmall(content, size, layout.lacks);
    drawings.push(layout.drawing);
    // A long run must not keep the scans of others waiting.
    await breathe();
  }
  return drawings;
}

function tooSmall(content: LabelContent, size: LabelSize, lacks: "symbol" | "texts"): Problem {
  const [width, height] = [size.widthUm / 1000, size.heightUm / 1000];
  const what = lacks === "symbol" ? "the symbol" : "the lot and the use-by date";
  return new Problem(
    "label-too-small",
    `A label of ${width} × ${height} mm is too small for ${what} of ${content.code}. ` +
      "Choose a larger size or another sheet.",
    { code: content.code, lacks },
  );
}

/** Drawings in the language of label printers, each to be printed so many times. */
export async function zplOf(
  labels: readonly { drawing: Drawing; copies: number }[],
  dotUm: number,
): Promise<string[]> {
  const typeface = await loadTypeface();
  const formats: string[] = [];
  for (const { drawing, copies } of labels) {
    formats.push(drawZpl(drawRaster(drawing, dotUm, typeface), copies));
    await breathe();
  }
  return formats;
}

export interface Numbered {
  copies: number;
  labels: readonly LabelContent[];
}

/** What is still to be printed from label number `from` on: each with how many copies of it. */
export function remainingOf(
  { copies, labels }: Numbered,
  from: number,
): { content: LabelContent; copies: number }[] {
  const all = copies * labels.length;
  if (from > all) {
    throw new Problem(
      "nothing-to-print",
      `The run has ${all} labels, so there is none from number ${from} on. Choose an earlier one.`,
      { labels: all },
    );
  }
  const first = Math.floor((from - 1) / copies);
  return labels.slice(first).map((content, index) => ({
    content,
    copies: index === 0 ? copies - ((from - 1) % copies) : copies,
  }));
}
