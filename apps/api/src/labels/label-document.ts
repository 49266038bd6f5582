import {
  composeDrawing,
  labelSizesUm,
  placeOnSheet,
  type Drawing,
  type SheetGeometry,
} from "#domain";
import type {
  LabelContent,
  LabelDocumentQuery,
  LabelPreviewQuery,
} from "#contracts/label-printing";
import { getPaper, type Language } from "#texts";
import { drawPdf } from "../drawing/draw-pdf.ts";
import { drawPng } from "../drawing/draw-png.ts";
import { dotUmOf, drawRaster } from "../drawing/draw-raster.ts";
import { drawSvg } from "../drawing/draw-svg.ts";
import { loadTypeface } from "../drawing/typeface.ts";
import type { SentFile } from "../http/file.ts";
import { Problem } from "../http/problem.ts";
import { drawLabels, remainingOf, zplOf, type Numbered } from "./draw-labels.ts";

export interface Wanted {
  query: LabelDocumentQuery;
  /** Where the format is a sheet. */
  sheet: SheetGeometry | undefined;
  language: Language;
  at: Date;
}

/** The labels of a run as a file. */
export async function drawDocument(run: Numbered, wanted: Wanted): Promise<SentFile> {
  const { query, language } = wanted;
  const dotUm = dotUmOf(query.dotsPerInch);
  const remaining = remainingOf(run, query.from);
  const single = query.format === "svg" || query.format === "png";
  const drawn = single ? remaining.slice(0, 1) : remaining;
  const size = wanted.sheet
    ? { widthUm: wanted.sheet.labelWidthUm, heightUm: wanted.sheet.labelHeightUm }
    : labelSizesUm[query.size];
  const contents = drawn.map(({ content }) => content);
  const drawings = await drawLabels(contents, { ...size, dotUm }, language);
  const each = drawings.map((drawing, index) => ({ drawing, copies: drawn[index]!.copies }));
  const typeface = await loadTypeface();
  if (query.format === "svg") {
    return file("image/svg+xml", "svg", Buffer.from(drawSvg(drawings[0]!, typeface)));
  }
  if (query.format === "png") {
    return file(
      "image/png",
      "png",
      await drawPng(drawRaster(drawings[0]!, dotUm, typeface), dotUm),
    );
  }
  if (query.format === "zpl") {
    return file("text/plain", "zpl", Buffer.from((await zplOf(each, dotUm)).join("")));
  }
  const labels = each.flatMap(({ drawing, copies }) => Array<Drawing>(copies).fill(drawing));
  const pages = wanted.sheet ? onSheets(labels, wanted.sheet, query.startAt) : labels;
  const title = getPaper(language).labels;
  return file("application/pdf", "pdf", await drawPdf(pages, { title, language, at: wanted.at }));
}

/** One label by itself, of a size that has a name or of another. */
export async function drawPreview(
  content: LabelContent,
  { size, labelWidthUm, labelHeightUm }: LabelPreviewQuery,
  language: Language,
): Promise<SentFile> {
  const named = labelSizesUm[size];
  const widthUm = labelWidthUm ?? named.widthUm;
  const heightUm = labelHeightUm ?? named.heightUm;
  const [drawing] = await drawLabels(
    [content],
    { widthUm, heightUm, dotUm: dotUmOf("300") },
    language,
  );
  return file("image/svg+xml", "svg", Buffer.from(drawSvg(drawing!, await loadTypeface())));
}

const file = (media: string, ending: string, bytes: Uint8Array): SentFile => ({
  media,
  name: `labels.${ending}`,
  bytes,
});

/** The pages of as many sheets as it takes; the labels before `startAt` are already used. */
function onSheets(labels: readonly Drawing[], sheet: SheetGeometry, startAt: number): Drawing[] {
  const perSheet = sheet.columns * sheet.rows;
  if (startAt > perSheet) {
    const message = `at most ${perSheet}, as many as the sheet has`;
    throw new Problem("invalid-request", `Start at label ${message}.`, {
      errors: [{ path: "/query/startAt", message }],
    });
  }
  const pages: { xUm: number; yUm: number; drawing: Drawing }[][] = [];
  labels.forEach((drawing, index) => {
    const { page, xUm, yUm } = placeOnSheet(sheet, startAt - 1 + index);
    (pages[page] ??= []).push({ xUm, yUm, drawing });
  });
  const size = { widthUm: sheet.pageWidthUm, heightUm: sheet.pageHeightUm };
  return pages.map((parts) => composeDrawing(size, parts));
}
