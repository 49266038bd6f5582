import { ascentEms, type Drawing } from "#domain";
import type { PrinterView } from "#contracts/label-printing";
import { getPaper, type Language } from "#texts";
import { dotUmOf } from "../drawing/draw-raster.ts";
import { drawOutline, drawRuler } from "../drawing/ruler.ts";
import { matrixOf } from "../drawing/symbols.ts";
import { loadTypeface } from "../drawing/typeface.ts";
import { Problem } from "../http/problem.ts";

/** What its symbol holds names nothing: a scan of it must not find a container. */
const content = "(99)TEST";
const edgeUm = 500;
const rulerUm = 5_200;

/** A label that shows whether a printer is set up right: frame, ruler, symbol, its own data. */
export async function drawCalibration(printer: PrinterView, language: Language): Promise<Drawing> {
  const { measure } = await loadTypeface();
  const { labelWidthUm: widthUm, labelHeightUm: heightUm, dotsPerInch } = printer;
  const words = getPaper(language).calibration;
  const dotUm = dotUmOf(dotsPerInch);
  const rows = await matrixOf("gs1datamatrix", content);
  const moduleUm = Math.ceil(330 / dotUm) * dotUm;
  const symbolUm = (rows.length + 4) * moduleUm;
  if (heightUm < edgeUm + rulerUm + symbolUm || widthUm < 2 * symbolUm) {
    throw new Problem(
      "label-too-small",
      `A label of ${widthUm / 1000} × ${heightUm / 1000} mm has no room for the test. ` +
        "Correct the label's size at the printer.",
    );
  }
  const ruler = drawRuler(
    { xUm: 0, yUm: edgeUm, lengthUm: Math.floor(widthUm / 1000) * 1000 - 1000 },
    measure,
  );
  const top = edgeUm + rulerUm + moduleUm;
  const lines = [
    words.title,
    `${widthUm / 1000} × ${heightUm / 1000} mm, ${dotsPerInch} dpi`,
    words.line,
  ];
  const xUm = symbolUm;
  const roomUm = widthUm - xUm - 2 * edgeUm;
  const widest = Math.max(...lines.map((line) => measure(line, "regular")));
  const emUm = Math.min(2_000, roomUm / widest, symbolUm / lines.length / 1.2);
  return {
    widthUm,
    heightUm,
    symbols: [{ xUm: Math.ceil((2 * edgeUm) / dotUm) * dotUm, yUm: top, moduleUm, rows }],
    texts: [
      ...ruler.texts.slice(1),
      ...lines.map((text, row) => ({
        text,
        xUm,
        baselineUm: top + ascentEms * emUm + row * 1.2 * emUm,
        emUm,
        widthUm: measure(text, "regular") * emUm,
        weight: "regular" as const,
      })),
    ],
    rules: [
      ...ruler.rules,
      ...drawOutline({ xUm: 0, yUm: 0, widthUm, heightUm }, Math.max(200, 2 * dotUm)),
    ],
  };
}
