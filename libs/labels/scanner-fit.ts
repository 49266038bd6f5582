import { GS } from "./gs1.ts";
import { scannerSetUpSymbols, type ScannerSetUpKey } from "./scanner-set-up.ts";

/** A set-up symbol found in what a scanner sent, and what stood around and within it. */
export type SymbolFit = {
  /** Added before everything else. */
  prefix: string;
  /** The symbology identifier, or empty. */
  identifier: string;
  /** A separator stood before the first element. */
  leading: boolean;
  /** What stood for the separator; empty for HIBC. */
  separator: string;
  /** What followed the data; for HIBC with the check character. */
  after: string;
};

function setUpText(key: ScannerSetUpKey): string {
  return scannerSetUpSymbols.find((symbol) => symbol.key === key)?.text ?? "";
}

const [HEAD = "", TAIL = ""] = setUpText("gs1").split(GS);
/** Without its check character, the space. */
const CORE = setUpText("hibc").slice(0, -1);
const BRACKETED = scannerSetUpSymbols[0]?.bracketed ?? "";

/** Answers where the GS1 symbol stands in `text`, its values unchanged, or undefined. */
export function fitGs1(text: string): SymbolFit | undefined {
  const at = text.indexOf(HEAD);
  if (at === -1) return undefined;
  const headEnd = at + HEAD.length;
  const tailAt = text.indexOf(TAIL, headEnd);
  if (tailAt === -1) return undefined;
  const separator = text.slice(headEnd, tailAt);
  const before = readBefore(text.slice(0, at), separator);
  return { ...before, separator, after: text.slice(tailAt + TAIL.length) };
}

/** Answers where the HIBC symbol stands in `text`, its characters unchanged, or undefined. */
export function fitHibc(text: string): SymbolFit | undefined {
  const at = text.indexOf(CORE);
  if (at === -1) return undefined;
  const before = readBefore(text.slice(0, at), "");
  return { ...before, separator: "", after: text.slice(at + CORE.length) };
}

function readBefore(
  before: string,
  separator: string,
): Pick<SymbolFit, "prefix" | "identifier" | "leading"> {
  const lead = [separator, GS].find((each) => each !== "" && before.endsWith(each));
  const rest = lead === undefined ? before : before.slice(0, -lead.length);
  const [identifier = ""] = /\][A-Za-z]\d$/.exec(rest) ?? [];
  const prefix = identifier === "" ? rest : rest.slice(0, -identifier.length);
  return { prefix, identifier, leading: lead !== undefined };
}

/** Answers whether the scanner put the AIs of the GS1 symbol in brackets. */
export function hasBrackets(text: string): boolean {
  return text.includes(BRACKETED);
}

/** Answers whether `+A` of the HIBC symbol came as `a`, as Full ASCII makes it of Code 39. */
export function isFullAscii(text: string): boolean {
  return text.includes(CORE.replace(/\+([A-Z])/g, (_, letter: string) => letter.toLowerCase()));
}

type CaseFault = "letters-inverted" | "letters-capital" | "letters-small";

/** Answers what happened to the letters' case where the symbol is right but for that. */
export function classifyCase(text: string, symbol: "gs1" | "hibc"): CaseFault | undefined {
  const parts = symbol === "gs1" ? [HEAD, TAIL] : [CORE];
  const has = (change: (part: string) => string): boolean =>
    parts.every((part) => text.includes(change(part)));
  if (has((part) => part.toUpperCase())) return "letters-capital";
  if (has((part) => part.toLowerCase())) return "letters-small";
  return has(invertCase) ? "letters-inverted" : undefined;
}

/** Answers `text` with capital letters small and small ones capital, of A to Z alone. */
export function invertCase(text: string): string {
  return text.replace(/[A-Za-z]/g, (letter) => {
    const upper = letter.toUpperCase();
    return letter === upper ? letter.toLowerCase() : upper;
  });
}
