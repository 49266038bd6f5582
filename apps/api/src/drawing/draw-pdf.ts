import { setImmediate as breathe } from "node:timers/promises";
import type { Drawing, DrawnSymbol, DrawnText } from "#domain";
import { runsOf } from "./draw-svg.ts";
import { fontFile } from "./typeface.ts";

const pointsPerUm = 72 / 25_400;
const points = (um: number): number => um * pointsPerUm;

/** A PDF with a page for each drawing, of its very size; texts can be searched and copied. */
export async function drawPdf(
  drawings: Iterable<Drawing>,
  told: { title: string; language: string; at: Date },
): Promise<Uint8Array> {
  const { default: PDFDocument } = await import("pdfkit");
  const document = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    font: fontFile("regular"),
    lang: told.language,
    displayTitle: true,
    info: { Title: told.title, CreationDate: told.at, Creator: "Tubule", Producer: "Tubule" },
  });
  const chunks: Buffer[] = [];
  document.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    document.on("end", resolve);
    document.on("error", reject);
  });
  document.registerFont("regular", fontFile("regular"));
  document.registerFont("bold", fontFile("bold"));
  for (const drawing of drawings) {
    document.addPage({ size: [points(drawing.widthUm), points(drawing.heightUm)], margin: 0 });
    for (const { xUm, yUm, widthUm, heightUm } of drawing.rules) {
      document.rect(points(xUm), points(yUm), points(widthUm), points(heightUm)).fill("black");
    }
    for (const symbol of drawing.symbols) addSymbol(document, symbol);
    for (const text of drawing.texts) {
      addText(document, text);
      await breathe();
    }
  }
  document.end();
  await ended;
  return Buffer.concat(chunks);
}

/** All modules are one path: no renderer leaves a hairline between two of them. */
function addSymbol(document: PDFKit.PDFDocument, symbol: DrawnSymbol): void {
  const { xUm, yUm, moduleUm, rows } = symbol;
  rows.forEach((row, down) => {
    for (const { from, length } of runsOf(row)) {
      const [x, y] = [xUm + from * moduleUm, yUm + down * moduleUm];
      document.rect(points(x), points(y), points(length * moduleUm), points(moduleUm));
    }
  });
  document.fill("black");
}

function addText(document: PDFKit.PDFDocument, text: DrawnText): void {
  document
    .font(text.weight)
    .fontSize(points(text.emUm))
    .fillColor("black")
    .text(text.text, points(text.xUm), points(text.baselineUm), {
      lineBreak: false,
      baseline: "alphabetic",
    });
}
