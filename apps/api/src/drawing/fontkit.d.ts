/** The few parts of fontkit that are used; it has no types of its own. */
declare module "fontkit" {
  export interface PathCommand {
    command: "moveTo" | "lineTo" | "quadraticCurveTo" | "bezierCurveTo" | "closePath";
    args: number[];
  }
  export interface Glyph {
    id: number;
    advanceWidth: number;
    path: { commands: PathCommand[] };
  }
  export interface Font {
    unitsPerEm: number;
    glyphForCodePoint(codePoint: number): Glyph;
  }
  export function openSync(file: string): Font;
}
