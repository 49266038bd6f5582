import type { Drawing, DrawnRule, DrawnSymbol, DrawnText } from "#domain";
import { scannerSetUpSymbols, type ScannerSetUpKey, type ScannerSetUpSymbol } from "#labels";
import { getPaper, type Language } from "#texts";
import { drawPdf } from "../drawing/draw-pdf.ts";
import { drawSvg, runsOf } from "../drawing/draw-svg.ts";
import { barsOf, matrixOf } from "../drawing/symbols.ts";
import { loadTypeface, type Typeface } from "../drawing/typeface.ts";
import type { SentFile } from "../http/file.ts";

/** Wide enough for any scanner: eight dots of a printer with 300 to the inch, a bar four. */
const moduleUm = (8 * 25_400) / 300;
const barUm = moduleUm / 2;
const barHeightUm = 18_000;
/** White around a linear symbol: ten bars (ISO/IEC 15417 and 16388, from memory). */
const quietUm = 10 * barUm;

type Piece = Pick<Drawing, "widthUm" | "heightUm"> & {
  symbols: DrawnSymbol[];
  rules: DrawnRule[];
};

async function drawSymbol({ carrier, text, bracketed }: ScannerSetUpSymbol): Promise<Piece> {
  if (carrier === "gs1-datamatrix" || carrier === "hibc-datamatrix") {
    const rows =
      bracketed === undefined
        ? await matrixOf("datamatrix", text)
        : await matrixOf("gs1datamatrix", bracketed);
    const symbol = { xUm: quietUm, yUm: quietUm, moduleUm, rows };
    const sideUm = rows.length * moduleUm + 2 * quietUm;
    return { widthUm: sideUm, heightUm: sideUm, symbols: [symbol], rules: [] };
  }
  const bars = await barsOf(carrier === "hibc-code128" ? "code128" : "code39", text);
  return {
    widthUm: bars.length * barUm + 2 * quietUm,
    heightUm: barHeightUm + 2 * quietUm,
    symbols: [],
    rules: runsOf(bars).map(({ from, length }) => ({
      xUm: quietUm + from * barUm,
      yUm: quietUm,
      widthUm: length * barUm,
      heightUm: barHeightUm,
    })),
  };
}

/** The set-up symbols on one page, or one of them alone for the screen. */
export async function drawScannerSheet(
  key: ScannerSetUpKey | undefined,
  told: { language: Language; at: Date },
): Promise<SentFile> {
  const typeface = await loadTypeface();
  const one = scannerSetUpSymbols.find((each) => each.key === key);
  if (one) {
    const svg = drawSvg({ ...(await drawSymbol(one)), texts: [] }, typeface);
    return { media: "image/svg+xml", name: `scanner-${one.key}.svg`, bytes: Buffer.from(svg) };
  }
  const title = getPaper(told.language).scannerSheet.title;
  const bytes = await drawPdf([await drawPage(told.language, typeface)], { title, ...told });
  return { media: "application/pdf", name: "scanner-sheet.pdf", bytes };
}

/** Within what A4 and Letter have in common. */
const page = { widthUm: 210_000, heightUm: 279_000, leftUm: 20_000 } as const;

async function drawPage(language: Language, { measure }: Typeface): Promise<Drawing> {
  const words = getPaper(language).scannerSheet;
  const texts: DrawnText[] = [];
  const write = (text: string, baselineUm: number, size: "title" | "name" | "line") => {
    const emUm = { title: 7_000, name: 4_000, line: 3_200 }[size];
    const weight = size === "line" ? "regular" : "bold";
    const widthUm = measure(text, weight) * emUm;
    texts.push({ text, xUm: page.leftUm, baselineUm, emUm, widthUm, weight });
  };
  write(words.title, 28_000, "title");
  words.lines.forEach((line, index) => write(line, 38_000 + index * 5_500, "line"));
  let yUm = 64_000;
  const parts: Piece[] = [];
  for (const symbol of scannerSetUpSymbols) {
    const piece = await drawSymbol(symbol);
    write(symbol.name, yUm, "name");
    const top = yUm + 1_000;
    const move = <T extends { xUm: number; yUm: number }>(each: T): T => ({
      ...each,
      xUm: each.xUm + page.leftUm - quietUm,
      yUm: each.yUm + top,
    });
    parts.push({ ...piece, symbols: piece.symbols.map(move), rules: piece.rules.map(move) });
    yUm = top + piece.heightUm + 12_000;
  }
  return {
    widthUm: page.widthUm,
    heightUm: page.heightUm,
    symbols: parts.flatMap(({ symbols }) => symbols),
    rules: parts.flatMap(({ rules }) => rules),
    texts,
  };
}
