import type { Drawing, DrawnSymbol, DrawnText } from "#domain";
import type { Typeface } from "./typeface.ts";

/** An SVG of the drawing's size; letters are outlines, so that they are the same everywhere. */
export function drawSvg(drawing: Drawing, typeface: Typeface): string {
  const [width, height] = [millimetres(drawing.widthUm), millimetres(drawing.heightUm)];
  const said = drawing.texts.map(({ text }) => text).join(", ");
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm"`,
    ` viewBox="0 0 ${width} ${height}" role="img" aria-label="${escapeXml(said)}">\n`,
    `<path fill="#fff" d="M0 0H${width}V${height}H0Z"/>\n`,
    ...drawing.rules.map(
      ({ xUm, yUm, widthUm, heightUm }) => `<path d="${box(xUm, yUm, [widthUm, heightUm])}"/>\n`,
    ),
    ...drawing.symbols.map((each) => `<path shape-rendering="crispEdges" d="${modules(each)}"/>\n`),
    ...drawing.texts.map((each) => `<path d="${letters(each, typeface)}"/>\n`),
    "</svg>\n",
  ].join("");
}

const millimetres = (um: number): string => String(Math.round(um) / 1000);

const box = (xUm: number, yUm: number, [widthUm, heightUm]: readonly [number, number]): string =>
  `M${millimetres(xUm)} ${millimetres(yUm)}h${millimetres(widthUm)}v${millimetres(heightUm)}` +
  `h-${millimetres(widthUm)}z`;

/** Dark modules side by side as one rectangle. */
export function runsOf(row: readonly boolean[]): { from: number; length: number }[] {
  const runs: { from: number; length: number }[] = [];
  row.forEach((dark, at) => {
    if (!dark) return;
    if (at > 0 && row[at - 1] === true) runs.at(-1)!.length += 1;
    else runs.push({ from: at, length: 1 });
  });
  return runs;
}

function modules({ xUm, yUm, moduleUm, rows }: DrawnSymbol): string {
  return rows
    .flatMap((row, down) =>
      runsOf(row).map(({ from, length }) =>
        box(xUm + from * moduleUm, yUm + down * moduleUm, [length * moduleUm, moduleUm]),
      ),
    )
    .join("");
}

function letters({ text, weight, xUm, baselineUm, emUm }: DrawnText, typeface: Typeface): string {
  return typeface
    .outlinesOf(text, weight)
    .flat()
    .map((contour) => {
      const points = contour.map(
        ([x, y]) => `${millimetres(xUm + emUm * x)} ${millimetres(baselineUm - emUm * y)}`,
      );
      return `M${points.join("L")}Z`;
    })
    .join("");
}

const entities: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
/** Neither markup nor a character that XML 1.0 forbids. */
const escapeXml = (text: string): string =>
  text
    .replace(/[&<>"]/g, (each) => entities[each]!)
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, "\ufffd");
