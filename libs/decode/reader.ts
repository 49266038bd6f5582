import type { Picture, Point } from "./picture.ts";

/** The kinds of symbol that labels carry; the rest are noise to us. */
export type SymbolFormat = "DataMatrix" | "QRCode" | "Code128" | "Code39" | "EAN13";

/** What one look at one picture found; whether it counts is decided over several looks. */
export interface RawRead {
  /** With its symbology identifier in front (ISO/IEC 15424), as a scanner sends it. */
  readonly text: string;
  readonly format: SymbolFormat;
  /** In the picture that was looked at, around the symbol. */
  readonly corners: readonly Point[];
}

/** How hard one look tries. */
export interface Effort {
  readonly formats: readonly SymbolFormat[];
  /** Looks along more lines and at more places. */
  readonly harder: boolean;
  /** Also at a quarter turn. */
  readonly rotated: boolean;
  /** Also light on dark. */
  readonly inverted: boolean;
  /** Also at a fraction of the size, for large symbols. */
  readonly shrunk: boolean;
}

/** One decoder. It looks once and guesses nothing: a symbol it is not certain of is left out. */
export interface SymbolReader {
  readonly name: "wasm" | "script";
  read(picture: Picture, effort: Effort): Promise<RawRead[]>;
}

/** A symbol in a picture. */
export interface SymbolRead {
  /**
   * What a scanner that sends symbology identifiers would send, as in `]d201…`; separators are GS.
   */
  readonly text: string;
  readonly format: SymbolFormat;
  /** In the picture that was given, around the symbol; the script reader gives but two or three. */
  readonly corners: readonly Point[];
  /** False while only one pass has seen a linear symbol: ask again before believing it. */
  readonly sure: boolean;
}

/** Squares in rows and columns, with codewords for the correction of errors. */
export const matrixFormats: readonly SymbolFormat[] = ["DataMatrix", "QRCode"];
/** Bars side by side, with a check digit at most. */
export const linearFormats: readonly SymbolFormat[] = ["Code128", "Code39", "EAN13"];
/** All that are looked for. */
export const allFormats: readonly SymbolFormat[] = [...matrixFormats, ...linearFormats];
