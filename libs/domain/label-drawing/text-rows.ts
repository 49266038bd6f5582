import {
  ascentEms,
  descentEms,
  type DrawnRule,
  type DrawnText,
  type MeasureText,
  type TextWeight,
} from "./drawing.ts";
import type { LabelTexts, WordAndValue } from "./label-texts.ts";

/** Texts and rules from a corner of their own. */
export interface Block {
  widthUm: number;
  heightUm: number;
  texts: DrawnText[];
  rules: DrawnRule[];
}

/** What the rows have to fit into, and how they may. */
export interface Frame {
  widthUm: number;
  heightUm: number;
  emUm: number;
  leastEmUm: number;
  titleLines: 1 | 2;
  /** Whether the title may end in an ellipsis. */
  shortened: boolean;
  packed: boolean;
  codeUnderSymbol: boolean;
  measure: MeasureText;
}

const rowEms = ascentEms + descentEms + 0.006;
/** Room for a date by hand, and the thickness of the line it is written on. */
const blank = { widthUm: 7_000, heightUm: 3_400, lineUm: 150 } as const;
const ellipsis = "…";

/** Sizes from `most` down to `least`, each by a `factor` smaller, `least` the last. */
export function sizesOf(most: number, least: number, factor: number): number[] {
  const sizes: number[] = [];
  for (let size = most; size > least; size *= factor) sizes.push(size);
  return [...sizes, least];
}

/** What stands in one piece within a row. */
interface Piece {
  text: string;
  emUm: number;
  weight: TextWeight;
  widthUm: number;
  heightUm: number;
  /** An empty line after the text, to be written on. */
  blankUm: number;
}

/** The rows of a label in a frame; undefined where they do not fit. */
export function placeRows(content: LabelTexts, frame: Frame): Block | undefined {
  if (frame.widthUm <= 0) return undefined;
  const title = titlePieces(content, frame);
  const facts = factsOf(content, frame);
  if (!title || !facts) return undefined;
  const groups = frame.packed ? [facts.flat()] : facts;
  const rows = [...title.map((piece) => [piece]), ...groups.flatMap((each) => fill(each, frame))];
  if (rows.flat().some(({ widthUm }) => widthUm > frame.widthUm)) return undefined;
  const heights = rows.map((row) => Math.max(...row.map(({ heightUm }) => heightUm)));
  const heightUm = heights.reduce((sum, each) => sum + each, 0);
  if (heightUm > frame.heightUm) return undefined;
  const block: Block = { widthUm: frame.widthUm, heightUm, texts: [], rules: [] };
  let bottomUm = 0;
  rows.forEach((row, index) => {
    bottomUm += heights[index]!;
    drawRow(block, row, bottomUm);
  });
  return block;
}

function drawRow(block: Block, row: readonly Piece[], bottomUm: number): void {
  const gapUm = 0.6 * row[0]!.emUm;
  // What room a row has beyond its words goes to its empty lines.
  const used = row.reduce((sum, { widthUm }) => sum + widthUm + gapUm, -gapUm);
  const blanks = row.filter(({ blankUm }) => blankUm > 0).length;
  const moreUm = blanks === 0 ? 0 : (block.widthUm - used) / blanks;
  let xUm = 0;
  for (const piece of row) {
    const { text, emUm, weight, blankUm } = piece;
    const textUm = piece.widthUm - blankUm;
    const baselineUm = bottomUm - descentEms * emUm;
    if (text !== "") block.texts.push({ text, emUm, weight, xUm, baselineUm, widthUm: textUm });
    if (blankUm > 0) {
      const widthUm = blankUm + moreUm - 0.3 * emUm;
      const start = xUm + textUm + 0.3 * emUm;
      block.rules.push({ xUm: start, yUm: baselineUm, widthUm, heightUm: blank.lineUm });
      xUm += moreUm;
    }
    xUm += piece.widthUm + gapUm;
  }
}

/** Pieces one after the other, in as many rows as it takes. */
function fill(pieces: readonly Piece[], { widthUm }: Frame): Piece[][] {
  const rows: Piece[][] = [];
  let usedUm = Infinity;
  for (const piece of pieces) {
    const gapUm = 0.6 * piece.emUm;
    if (usedUm + gapUm + piece.widthUm > widthUm) {
      rows.push([piece]);
      usedUm = piece.widthUm;
    } else {
      rows.at(-1)!.push(piece);
      usedUm += gapUm + piece.widthUm;
    }
  }
  return rows;
}

function pieceOf(text: string, emUm: number, given: { weight: TextWeight; measure: MeasureText }) {
  const widthUm = given.measure(text, given.weight) * emUm;
  return { text, emUm, weight: given.weight, widthUm, heightUm: rowEms * emUm, blankUm: 0 };
}

function titlePieces({ title, lot }: LabelTexts, frame: Frame): Piece[] | undefined {
  if (title === "") return [];
  const emUm = lot === null ? frame.emUm : Math.min(1.1 * frame.emUm, 3_500);
  const given = { weight: "bold" as const, measure: frame.measure };
  const mostEms = frame.widthUm / emUm;
  const emsOf = (text: string) => frame.measure(text, "bold");
  const lines = wrapWords(title, mostEms, emsOf);
  const { titleLines } = frame;
  if (frame.shortened) {
    const rest = lines.splice(titleLines - 1).join(" ");
    if (rest !== "") lines.push(rest);
    if (lines.some((line) => shorten(line, mostEms, emsOf) === ellipsis)) return undefined;
    return lines.map((line) => pieceOf(shorten(line, mostEms, emsOf), emUm, given));
  }
  return lines.length > titleLines ? undefined : lines.map((line) => pieceOf(line, emUm, given));
}

/** The code, lot, dates and further line, each as the pieces of one group. */
function factsOf(content: LabelTexts, frame: Frame): Piece[][] | undefined {
  const { emUm, leastEmUm, measure } = frame;
  const smallEmUm = Math.max(leastEmUm, 0.85 * emUm);
  const plain = { weight: "regular" as const, measure };
  const groups: Piece[][] = [];
  if (!frame.codeUnderSymbol) {
    groups.push([pieceOf(content.code, emUm, { weight: "bold", measure })]);
  }
  if (content.lot) {
    const lot = lotPieces(content.lot, frame);
    if (!lot) return undefined;
    groups.push(lot);
  }
  if (content.useBy) groups.push(datePieces(content.useBy, emUm, frame));
  groups.push(content.dates.flatMap((each) => datePieces(each, smallEmUm, frame)));
  if (content.line !== "") {
    const emsOf = (text: string) => measure(text, "regular");
    const fitting = frame.widthUm / emsOf(content.line) - 1e-6;
    const lineEmUm = Math.max(leastEmUm, Math.min(smallEmUm, fitting));
    const text = shorten(content.line, frame.widthUm / lineEmUm, emsOf);
    groups.push([pieceOf(text, lineEmUm, plain)]);
  }
  return groups.filter((group) => group.length > 0);
}

/** In one piece, else smaller, else over several rows: a lot is never shortened. */
function lotPieces({ word, value }: WordAndValue, frame: Frame): Piece[] | undefined {
  const { widthUm, measure, leastEmUm } = frame;
  const bold = { weight: "bold" as const, measure };
  const whole = `${word} ${value}`;
  const ems = measure(whole, "bold");
  const emUm = Math.min(frame.emUm, widthUm / ems - 1e-6);
  if (emUm >= leastEmUm) return [pieceOf(whole, emUm, bold)];
  const lines: string[] = [];
  let line = word;
  for (const character of value) {
    const separator = line === word ? " " : "";
    const longer = `${line}${separator}${character}`;
    if (measure(longer, "bold") * leastEmUm > widthUm) {
      // A row with hardly more than the word on it would be read as another lot.
      if (line.length < word.length + 4 && lines.length === 0) return undefined;
      lines.push(line);
      line = character;
    } else line = longer;
  }
  return [...lines, line].map((each) => pieceOf(each, leastEmUm, bold));
}

/** A word with its value, or with an empty line; on two rows where it is too wide for one. */
function datePieces({ word, value }: WordAndValue, emUm: number, frame: Frame): Piece[] {
  const given = { weight: "regular" as const, measure: frame.measure };
  if (value === "") {
    const piece = pieceOf(word, emUm, given);
    const widthUm = piece.widthUm + blank.widthUm;
    const heightUm = Math.max(piece.heightUm, blank.heightUm);
    return [{ ...piece, widthUm, heightUm, blankUm: blank.widthUm }];
  }
  const whole = pieceOf(`${word} ${value}`, emUm, given);
  if (whole.widthUm <= frame.widthUm) return [whole];
  return [pieceOf(word, emUm, given), pieceOf(value, emUm, given)];
}

/** As much of a text as fits, with an ellipsis where that is not all. */
function shorten(text: string, mostEms: number, emsOf: (text: string) => number): string {
  if (emsOf(text) <= mostEms) return text;
  const characters = Array.from(text);
  let [fits, tooMany] = [0, characters.length];
  while (tooMany - fits > 1) {
    const middle = Math.floor((fits + tooMany) / 2);
    const cut = `${characters.slice(0, middle).join("").trimEnd()}${ellipsis}`;
    if (emsOf(cut) <= mostEms) fits = middle;
    else tooMany = middle;
  }
  return `${characters.slice(0, fits).join("").trimEnd()}${ellipsis}`;
}

function wrapWords(text: string, mostEms: number, emsOf: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const longer = `${lines.at(-1) ?? ""} ${word}`.trim();
    if (lines.length > 0 && emsOf(longer) <= mostEms) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
