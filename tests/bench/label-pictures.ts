/**
 * Pictures of labels as a camera would take them, 1280 by 720, the same for the same seed: a symbol
 * on its paper among clutter, with one thing wrong at a time beside a little of everything.
 */
import type { Picture } from "#decode";
import {
  drawClutter,
  drawDecoy,
  frameHeight,
  frameWidth,
  type Canvas,
  type Decoy,
} from "./label-scenes.ts";
import { makeSymbol, type LabelSymbol, type Symbology } from "./label-symbols.ts";
import { randomFrom, type Random } from "./random.ts";

// Looked up once: in a test's own context each look at a global is slow.
const { abs, asin, ceil, exp, floor, max, min, sqrt } = Math;

export const degradations = [
  "none",
  "rotation",
  "blur",
  "noise",
  "glare",
  "curvature",
  "low contrast",
  "perspective",
  "small modules",
] as const;
export type Degradation = (typeof degradations)[number];

export interface LabelPicture {
  symbology: Symbology;
  degradation: Degradation;
  expected: string;
  /** The same scene a moment later each: the hand has moved, the noise is new. */
  frames: Picture[];
}

/** How one label lies before the camera and what the camera makes of it. */
interface View {
  /** Pixels a module. */
  module: number;
  /** Radians; with its cosine and sine. */
  turn: number;
  cos: number;
  sin: number;
  x: number;
  y: number;
  /** How much nearer the one edge is than the other, of the whole width. */
  tiltX: number;
  tiltY: number;
  /** Radius of the bottle in pixels. */
  radius: number;
  ink: number;
  paper: number;
  blur: number;
  motion: number;
  noise: number;
  glare: { x: number; y: number; reach: number; strength: number };
}

/** Draws one label with one degradation, as many frames of it as asked for. */
export function makeLabelPicture(
  symbology: Symbology,
  degradation: Degradation,
  { seed, frames = 1 }: { seed: number; frames?: number },
): LabelPicture {
  const random = randomFrom(seed);
  const symbol = makeSymbol(symbology, random);
  const view = viewOf(symbol, degradation, random);
  const scene = drawClutter(random);
  const surroundings = paperAround(symbol, random);
  const takes = Array.from({ length: frames }, (_, at) => {
    const canvas = scene.slice();
    const moved = at === 0 ? view : moveHand(view, random);
    drawLabel(canvas, { symbol, view: moved, surroundings });
    return take(canvas, moved, random);
  });
  return { symbology, degradation, expected: symbol.expected, frames: takes };
}

/** A frame without a symbol. */
export function makeDecoyPicture(kind: Decoy, seed: number): Picture {
  const random = randomFrom(seed);
  const canvas = drawDecoy(kind, random);
  const [blur, noise] = [random.between(0.4, 1.2), random.between(2, 14)];
  return take(canvas, { blur, noise, motion: 0, glare: noGlare }, random);
}

const noGlare = { x: 0, y: 0, reach: 1, strength: 0 };

/** A field of view of about 12 cm: a module of a quarter of a millimetre has 2.7 pixels. */
function viewOf(symbol: LabelSymbol, degradation: Degradation, random: Random): View {
  const { columns } = symbol.modules;
  const is = (name: Degradation): boolean => degradation === name;
  const usual = symbol.isLinear ? random.between(1.8, 3.2) : random.between(2.5, 4.5);
  const small = symbol.isLinear ? random.between(1.25, 1.7) : random.between(1.5, 2.2);
  const turn = is("rotation") ? random.between(0, 2 * Math.PI) : random.normal() * 0.05;
  const wanted = is("small modules") ? small : usual;
  // A turned symbol must still fit into the frame.
  const room = min(1050, 640 / max(0.1, abs(Math.sin(turn))));
  const module = min(wanted, room / columns);
  const reach = (columns * module) / 2;
  const aside = max(0, min(180, 600 - reach));
  return {
    module,
    turn,
    cos: Math.cos(turn),
    sin: Math.sin(turn),
    x: frameWidth / 2 + random.between(-aside, aside),
    y: frameHeight / 2 + random.between(-70, 70) * (is("rotation") ? 0.3 : 1),
    tiltX: is("perspective") ? random.between(0.15, 0.45) * random.pick([-1, 1]) : 0,
    tiltY: is("perspective") ? random.between(0.05, 0.3) * random.pick([-1, 1]) : 0,
    radius: is("curvature") ? reach * random.between(1.15, 2) : 1e6,
    ink: is("low contrast") ? random.between(95, 120) : random.between(15, 45),
    paper: is("low contrast") ? random.between(130, 150) : random.between(190, 235),
    blur: is("blur") ? module * random.between(0.45, 0.85) : random.between(0.4, 0.8),
    motion: is("blur") && random.next() < 0.4 ? module * random.between(1, 2) : 0,
    noise: is("noise") ? random.between(22, 50) : random.between(2, 6),
    glare: is("glare")
      ? {
          x: frameWidth / 2 + random.normal() * reach * 0.7,
          y: frameHeight / 2 + random.normal() * 60,
          reach: random.between(40, 160),
          strength: random.between(90, 260),
        }
      : noGlare,
  };
}

function moveHand(view: View, random: Random): View {
  const turn = view.turn + random.normal() * 0.01;
  return {
    ...view,
    x: view.x + random.normal() * 4,
    y: view.y + random.normal() * 4,
    turn,
    cos: Math.cos(turn),
    sin: Math.sin(turn),
    module: view.module * (1 + random.normal() * 0.01),
    blur: view.blur * (1 + abs(random.normal()) * 0.05),
  };
}

/** Print above and below the symbol, in modules from its middle. */
function paperAround({ modules, isLinear }: LabelSymbol, random: Random) {
  const quiet = isLinear ? 10 : 3;
  const [width, height] = [modules.columns / 2 + quiet + 4, modules.rows / 2 + 16];
  const [textFrom, textTo] = [modules.rows / 2 + 4, modules.rows / 2 + 12];
  const dots = Array.from({ length: 4096 }, () => random.next() < 0.45);
  const isInked = (column: number, row: number): boolean =>
    abs(row) > textFrom && abs(row) < textTo && dots[(floor(row) * 611 + floor(column)) & 4095]!;
  return { width, height, isInked };
}

interface Label {
  symbol: LabelSymbol;
  view: View;
  surroundings: ReturnType<typeof paperAround>;
}

const samples = [0.17, 0.5, 0.83];

function drawLabel(canvas: Canvas, label: Label): void {
  const { view, surroundings } = label;
  const stretch = view.module * (view.tiltX === 0 ? 1.05 : 1.8);
  const [wide, high] = [surroundings.width * stretch, surroundings.height * stretch];
  const [cos, sin] = [abs(Math.cos(view.turn)), abs(Math.sin(view.turn))];
  const [reachX, reachY] = [wide * cos + high * sin, wide * sin + high * cos];
  const [top, bottom] = [max(0, view.y - reachY), min(frameHeight, view.y + reachY)];
  const [left, right] = [max(0, view.x - reachX), min(frameWidth, view.x + reachX)];
  for (let y = floor(top); y < bottom; y += 1) {
    for (let x = floor(left); x < right; x += 1) {
      const here = levelAt(label, x + 0.5, y + 0.5);
      if (here === undefined) continue;
      let sum = 0;
      for (const dy of samples) {
        for (const dx of samples) sum += levelAt(label, x + dx, y + dy) ?? here;
      }
      canvas[y * frameWidth + x] = sum / 9;
    }
  }
}

/** From a place in the frame back through bottle, tilt and turn to the label's modules. */
function levelAt({ symbol, view, surroundings }: Label, x: number, y: number): number | undefined {
  const dx = x - view.x;
  const dy = y - view.y;
  const u = dx * view.cos + dy * view.sin;
  const v = dy * view.cos - dx * view.sin;
  const { columns, rows, isDark } = symbol.modules;
  const depth = 1 - (view.tiltX * u + view.tiltY * v) / (columns * view.module);
  const across = u / depth / view.radius;
  if (depth <= 0.2 || abs(across) >= 1) return undefined;
  const column = (asin(across) * view.radius) / view.module;
  const row = v / depth / view.module;
  const { width, height, isInked } = surroundings;
  if (abs(column) > width || abs(row) > height) return undefined;
  const atColumn = floor(column + columns / 2);
  const atRow = floor(row + rows / 2);
  const isBeside = atColumn < 0 || atColumn >= columns;
  const isSymbol = !isBeside && atRow >= 0 && atRow < rows;
  const isInk = isSymbol ? isDark(atColumn, atRow) : !isBeside && isInked(column, row);
  // A bottle is darker where it turns away.
  return (isInk ? view.ink : view.paper) * (0.4 + 0.6 * sqrt(1 - across * across));
}

type Lens = Pick<View, "blur" | "motion" | "noise" | "glare">;

/** What the lens and the sensor make of the light. */
function take(canvas: Canvas, { blur, motion, noise, glare }: Lens, random: Random): Picture {
  const line = gaussian(blur);
  let light = convolve(convolve(canvas, line, 1), line, frameWidth);
  const smear = ceil(motion);
  if (smear > 1) {
    const even = Array.from({ length: smear }, () => 1 / smear);
    light = convolve(light, even, random.pick([1, frameWidth]));
  }
  if (glare.strength > 0) shineOn(light, glare);
  const grey = new Uint8ClampedArray(light.length);
  const grain = Float32Array.from({ length: 65536 }, () => random.normal() * noise);
  let state = floor(random.next() * 2 ** 32) | 1;
  for (let at = 0; at < grey.length; at += 1) {
    // Marsaglia's xorshift: the grain is drawn once, its order for each pixel.
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    grey[at] = light[at]! + grain[state & 65535]!;
  }
  return { grey, width: frameWidth, height: frameHeight };
}

function shineOn(light: Canvas, { x, y, reach, strength }: View["glare"]): void {
  for (let row = 0, at = 0; row < frameHeight; row += 1) {
    const down = ((row - y) * 1.4) / reach;
    for (let column = 0; column < frameWidth; column += 1, at += 1) {
      const along = (column - x) / reach;
      light[at]! += strength * exp(-along * along - down * down);
    }
  }
}

function gaussian(deviation: number): number[] {
  const reach = max(1, ceil(2.5 * deviation));
  const weights = Array.from({ length: 2 * reach + 1 }, (_, at) =>
    exp(-((at - reach) ** 2) / (2 * deviation * deviation)),
  );
  const sum = weights.reduce((total, each) => total + each, 0);
  return weights.map((each) => each / sum);
}

/** Along rows for a step of one, along columns for a step of the width; edges stay as they are. */
function convolve(from: Canvas, weights: readonly number[], step: number): Canvas {
  const to = from.slice();
  const reach = floor(weights.length / 2);
  const edge = reach * step;
  to.fill(0, edge, to.length - edge);
  for (const [tap, weight] of weights.entries()) {
    const offset = (tap - reach) * step;
    const end = to.length - edge;
    for (let at = edge; at < end; at += 1) to[at]! += weight * from[at + offset]!;
  }
  return to;
}
