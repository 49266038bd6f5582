import { fontFile } from "./typeface.ts";

const mm = 72 / 25.4;
const marginMm = 18;
const labelMm = 42;
const footMm = 12;

export interface PaperTold {
  /** In millimetres. */
  size: { width: number; height: number };
  title: string;
  language: string;
  at: Date;
  /** What stands at the foot of each page; nothing where it is null. */
  foot: ((page: number, pages: number) => string) | null;
}

/** A text that flows over as many pages as it takes. */
export interface Paper {
  title(text: string): void;
  heading(text: string): void;
  /** What is to be seen first, such as that a page is a draft. */
  mark(text: string): void;
  /** A word with its value beside it. */
  field(label: string, value: string): void;
  /** A bold line with plain ones beneath, kept on one page where they fit. */
  item(head: string, lines: readonly string[]): void;
  text(text: string): void;
  small(text: string): void;
  /** A row of boxes to write in, their words small inside; `share` of the width for each. */
  boxes(cells: readonly Box[]): void;
  /** Keeps so much of what follows together on one page, in millimetres. */
  keep(heightMm: number): void;
  /** Goes on with a new page. */
  page(): void;
}
export interface Box {
  label: string;
  share: number;
  heightMm?: number;
}

/**
 * Writes a document for keeping: PDF/A-2b (ISO 19005-2), its typeface embedded, its colours those
 * of sRGB, with the title and language that a reader and an archive ask for.
 */
export async function writePaper(
  told: PaperTold,
  write: (paper: Paper) => void,
): Promise<Uint8Array> {
  const { default: PDFDocument } = await import("pdfkit");
  const document = new PDFDocument({
    size: [told.size.width * mm, told.size.height * mm],
    margin: marginMm * mm,
    font: fontFile("regular"),
    lang: told.language,
    displayTitle: true,
    pdfVersion: "1.7",
    subset: "PDF/A-2b",
    bufferPages: true,
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
  write(paperOn(document));
  if (told.foot !== null) writeFeet(document, told.foot);
  document.end();
  await ended;
  return Buffer.concat(chunks);
}

function paperOn(document: PDFKit.PDFDocument): Paper {
  const left = marginMm * mm;
  const line = (weight: "regular" | "bold", points: number, text: string) =>
    document.font(weight).fontSize(points).fillColor("black").text(text, left);
  /** A new page where so much does not fit on this one. */
  const keep = (points: number) => {
    if (document.y + points > document.page.maxY()) document.addPage();
  };
  return {
    title: (text) => {
      line("bold", 18, text).moveDown(0.4);
    },
    heading: (text) => {
      // Never alone at the end of a page.
      keep(60);
      document.moveDown(0.7);
      line("bold", 12, text).moveDown(0.25);
    },
    mark: (text) => {
      line("bold", 11, text).moveDown(0.5);
    },
    field: (label, value) => {
      const valueLeft = left + labelMm * mm;
      const width = document.page.width - valueLeft - left;
      document.font("regular").fontSize(9.5);
      keep(document.heightOfString(value, { width }));
      const top = document.y;
      line("regular", 9.5, label);
      const below = document.y;
      document.font("bold").text(value, valueLeft, top, { width });
      document.x = left;
      document.y = Math.max(below, document.y) + 2;
    },
    item: (head, lines) => {
      const width = document.page.width - 2 * left;
      document.font("regular").fontSize(9.5);
      const heights = lines.map((text) => document.heightOfString(text, { width }));
      keep(
        14 +
          Math.min(
            heights.reduce((sum, height) => sum + height, 0),
            300,
          ),
      );
      line("bold", 9.5, head);
      for (const text of lines) line("regular", 9.5, text);
      document.moveDown(0.35);
    },
    text: (text) => {
      line("regular", 9.5, text).moveDown(0.3);
    },
    small: (text) => {
      line("regular", 8, text).moveDown(0.3);
    },
    boxes: (cells) => {
      drawBoxes(document, cells, keep);
      document.x = left;
    },
    keep: (heightMm) => keep(heightMm * mm),
    page: () => {
      document.addPage();
    },
  };
}

const boxMm = 9.5;
const boxGap = 3;

function drawBoxes(
  document: PDFKit.PDFDocument,
  cells: readonly Box[],
  keep: (points: number) => void,
): void {
  const height = Math.max(...cells.map(({ heightMm = boxMm }) => heightMm)) * mm;
  keep(height);
  const top = document.y;
  const shares = cells.reduce((sum, { share }) => sum + share, 0);
  const left = marginMm * mm;
  const all = document.page.width - 2 * left;
  let from = left;
  for (const { label, share } of cells) {
    const width = (all * share) / shares;
    document.lineWidth(0.6).rect(from, top, width, height).stroke("black");
    document
      .font("regular")
      .fontSize(6.5)
      .fillColor("black")
      .text(label, from + 3, top + 2.5, { width: width - 6, height: 9, ellipsis: true });
    from += width;
  }
  document.y = top + height + boxGap;
}

function writeFeet(document: PDFKit.PDFDocument, foot: NonNullable<PaperTold["foot"]>): void {
  const { start, count } = document.bufferedPageRange();
  for (let index = 0; index < count; index += 1) {
    document.switchToPage(start + index);
    // Below the margin, where a text would otherwise begin a page of its own.
    document.page.margins.bottom = 0;
    document
      .font("regular")
      .fontSize(8)
      .text(foot(index + 1, count), marginMm * mm, document.page.height - footMm * mm, {
        lineBreak: false,
      });
  }
}
