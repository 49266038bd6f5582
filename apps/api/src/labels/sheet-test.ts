import { placeOnSheet, type Drawing, type DrawnText, type SheetGeometry } from "#domain";
import { getPaper, type Language } from "#texts";
import { drawPdf } from "../drawing/draw-pdf.ts";
import { drawCross, drawOutline, drawRuler } from "../drawing/ruler.ts";
import { loadTypeface } from "../drawing/typeface.ts";
import type { SentFile } from "../http/file.ts";

/** The edge that most office printers leave white. Common practice, no source. */
const whiteUm = 6_000;

/** A page to hold against a sheet: the outline of each label, two rulers and the page's middle. */
export async function drawSheetTest(
  sheet: SheetGeometry & { name: string },
  told: { language: Language; at: Date },
): Promise<SentFile> {
  const { measure } = await loadTypeface();
  const words = getPaper(told.language).sheetTest;
  const { pageWidthUm, pageHeightUm } = sheet;
  const across = { xUm: 0, yUm: whiteUm, lengthUm: pageWidthUm };
  const down = { xUm: whiteUm, yUm: 0, lengthUm: pageHeightUm, down: true };
  const rulers = [drawRuler(across, measure), drawRuler(down, measure)];
  const cells = Array.from({ length: sheet.columns * sheet.rows }, (_, index) => {
    const { xUm, yUm } = placeOnSheet(sheet, index);
    return { xUm, yUm, widthUm: sheet.labelWidthUm, heightUm: sheet.labelHeightUm };
  });
  const drawing: Drawing = {
    widthUm: pageWidthUm,
    heightUm: pageHeightUm,
    symbols: [],
    texts: [
      ...rulers.flatMap(({ texts }) => texts),
      ...[`${words.title}: ${sheet.name}`, ...words.lines].map((text, row): DrawnText => {
        const emUm = 2_600;
        const weight = row === 0 ? "bold" : "regular";
        const widthUm = measure(text, weight) * emUm;
        const baselineUm = pageHeightUm / 2 + 16_000 + row * 4_000;
        return { text, weight, emUm, widthUm, baselineUm, xUm: (pageWidthUm - widthUm) / 2 };
      }),
    ],
    rules: [
      ...cells.flatMap((cell) => drawOutline(cell)),
      ...rulers.flatMap(({ rules }) => rules),
      ...drawCross(pageWidthUm / 2, pageHeightUm / 2, 10_000),
    ],
  };
  const bytes = await drawPdf([drawing], { title: words.title, ...told });
  return { media: "application/pdf", name: "sheet-test.pdf", bytes };
}
