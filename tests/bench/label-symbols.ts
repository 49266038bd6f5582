/** Symbols as labels carry them, with what a scanner would send for each. */
import bwipjs from "bwip-js/node";
import type { Picture } from "#decode";
import type { Random } from "./random.ts";

/** A square or strip of modules; a linear symbol's rows are all the same. */
export interface Modules {
  columns: number;
  rows: number;
  isDark: (column: number, row: number) => boolean;
}

export interface LabelSymbol {
  symbology: Symbology;
  /** With the symbology identifier. */
  expected: string;
  modules: Modules;
  isLinear: boolean;
}

export const symbologies = [
  "GS1 DataMatrix",
  "HIBC DataMatrix",
  "GS1 QR",
  "Digital Link QR",
  "GS1-128",
  "HIBC Code 128",
  "HIBC Code 39",
  "EAN-13",
] as const;
export type Symbology = (typeof symbologies)[number];

const capitals = "ABCDEFGHJKLMNPQRSTUVWXYZ0123456789";
const digits = "0123456789";
const hibcValues = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

/** What is drawn (in the words of bwip-js) and what is sent. */
interface Content {
  bcid: string;
  text: string;
  sent: string;
}

export function makeSymbol(symbology: Symbology, random: Random): LabelSymbol {
  const { bcid, text, sent } = contents[symbology](random);
  const parse = text.startsWith("(");
  const [drawn] = bwipjs.raw({ bcid, text, ...(parse ? { parse } : {}) });
  if (drawn === undefined) throw new Error(`nothing was drawn for ${bcid}`);
  if ("pixs" in drawn) {
    const { pixs, pixx: columns, pixy: rows } = drawn;
    const isDark = (column: number, row: number): boolean => pixs[row * columns + column] === 1;
    return { symbology, expected: sent, modules: { columns, rows, isDark }, isLinear: false };
  }
  const bars = [...drawn.sbs].flatMap((width, index) =>
    Array.from({ length: width }, () => index % 2 === 0),
  );
  const rows = random.whole(28, 60);
  const isDark = (column: number): boolean => bars[column]!;
  const modules = { columns: bars.length, rows, isDark };
  return { symbology, expected: sent, modules, isLinear: true };
}

const contents: Record<Symbology, (random: Random) => Content> = {
  "GS1 DataMatrix": (random) => elementString("gs1datamatrix", "]d2", random),
  "GS1 QR": (random) => elementString("gs1qrcode", "]Q3", random),
  "GS1-128": (random) => elementString("gs1-128", "]C1", random),
  "HIBC DataMatrix": (random) => hibc("hibcdatamatrix", "]d1", random),
  "HIBC Code 128": (random) => hibc("hibccode128", "]C0", random),
  "HIBC Code 39": (random) => hibc("hibccode39", "]A1", random),
  "Digital Link QR": (random) => {
    const lot = random.text(capitals, random.whole(4, 8));
    const link = `https://id.example.org/01/${gtin(random)}/10/${lot}?17=${expiry(random)}`;
    return { bcid: "qrcode", text: link, sent: `]Q1${link}` };
  },
  "EAN-13": (random) => {
    const text = gtin(random).slice(1);
    return { bcid: "ean13", text, sent: `]E0${text}` };
  },
};

/** The lot stands before the date as often as behind it: then a separator follows it. */
function elementString(bcid: string, identifier: string, random: Random): Content {
  const number = gtin(random);
  const date = expiry(random);
  const lot = random.text(capitals, random.whole(4, 8));
  const isSeparated = random.next() < 0.5;
  const [first, then] = isSeparated ? [`(10)${lot}`, `(17)${date}`] : [`(17)${date}`, `(10)${lot}`];
  const text = `(01)${number}${first}${then}`;
  const [sentFirst, sentThen] = isSeparated
    ? [`10${lot}\u001d`, `17${date}`]
    : [`17${date}`, `10${lot}`];
  return { bcid, text, sent: `${identifier}01${number}${sentFirst}${sentThen}` };
}

function hibc(bcid: string, identifier: string, random: Random): Content {
  const primary = `${random.text("ABCDEFGH", 1)}${random.text(digits, 3)}`;
  const item = random.text(digits, random.whole(4, 6));
  const date = `${random.text("23", 1)}${random.text(digits, 1)}0${random.whole(1, 9)}1${random.whole(0, 9)}`;
  const isLong = bcid === "hibcdatamatrix" || random.next() < 0.5;
  const lot = random.text(capitals, random.whole(3, 6));
  const data = `${primary}${item}1${isLong ? `/$$3${date}${lot}` : ""}`;
  const sum = Array.from(`+${data}`).reduce((total, each) => total + hibcValues.indexOf(each), 0);
  return { bcid, text: data, sent: `${identifier}+${data}${hibcValues[sum % 43]!}` };
}

function gtin(random: Random): string {
  const body = `0${random.text(digits, 12)}`;
  const sum = Array.from(body).reduce(
    (total, each, at) => total + Number(each) * (at % 2 ? 1 : 3),
    0,
  );
  return `${body}${(10 - (sum % 10)) % 10}`;
}

function expiry(random: Random): string {
  const two = (value: number): string => String(value).padStart(2, "0");
  return `${random.whole(26, 32)}${two(random.whole(1, 12))}${two(random.whole(1, 28))}`;
}

/** The symbol and its quiet zone alone, sharp, some pixels a module. */
export function drawAlone({ columns, rows, isDark }: Modules): Picture {
  const [scale, quiet] = [4, 10];
  const [width, height] = [(columns + 2 * quiet) * scale, (rows + 2 * quiet) * scale];
  const grey = new Uint8ClampedArray(width * height).fill(255);
  for (let row = 0; row < rows * scale; row += 1) {
    for (let column = 0; column < columns * scale; column += 1) {
      if (!isDark(Math.floor(column / scale), Math.floor(row / scale))) continue;
      grey[(row + quiet * scale) * width + column + quiet * scale] = 0;
    }
  }
  return { grey, width, height };
}
