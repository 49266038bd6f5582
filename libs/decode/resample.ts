import { emptyPicture, type Picture, type Point } from "./picture.ts";

/** A turned rectangle of a picture, and the size at which it is wanted. */
export interface Cutting {
  /** The middle, in pixels of the picture. */
  readonly centre: Point;
  /** From the picture's rows to those of the cutting, in radians, clockwise as one looks at it. */
  readonly turn: number;
  /** In pixels of the picture. */
  readonly width: number;
  readonly height: number;
  /** How many pixels of the cutting are made of one. */
  readonly scale: number;
  /** How many rows it gets; as many as the scale makes where this is left out. */
  readonly rows?: number;
}

/**
 * Cuts out a turned rectangle and straightens it, each pixel mixed from its four neighbours. What
 * lies outside the picture is taken from its nearest edge.
 */
export function resample(picture: Picture, cutting: Cutting): Picture {
  const { grey, width, height } = picture;
  const { scale, turn } = cutting;
  const cut = emptyPicture(
    Math.max(1, Math.round(cutting.width * scale)),
    Math.max(1, cutting.rows ?? Math.round(cutting.height * scale)),
  );
  const [stepX, stepY] = [Math.cos(turn) / scale, Math.sin(turn) / scale];
  const [lastX, lastY] = [width - 1.001, height - 1.001];
  let at = 0;
  for (let row = 0; row < cut.height; row += 1) {
    const first = pointInOriginal(cutting, { x: 0.5, y: row + 0.5 }, cut);
    let [x, y] = [first.x - 0.5, first.y - 0.5];
    for (let column = 0; column < cut.width; column += 1, x += stepX, y += stepY) {
      const insideX = x < 0 ? 0 : x > lastX ? lastX : x;
      const insideY = y < 0 ? 0 : y > lastY ? lastY : y;
      const [left, top] = [insideX | 0, insideY | 0];
      const [partX, partY] = [insideX - left, insideY - top];
      const from = top * width + left;
      const upper = grey[from]! + (grey[from + 1]! - grey[from]!) * partX;
      const lower = grey[from + width]! + (grey[from + width + 1]! - grey[from + width]!) * partX;
      cut.grey[at++] = upper + (lower - upper) * partY;
    }
  }
  return cut;
}

/** Where a point of a cutting lies in the picture it was cut from. */
export function pointInOriginal(
  { centre, height, scale, turn }: Cutting,
  point: Point,
  cut: { width: number; height: number },
): Point {
  const dx = (point.x - cut.width / 2) / scale;
  const dy = (point.y / cut.height - 0.5) * height;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { x: centre.x + dx * cos - dy * sin, y: centre.y + dx * sin + dy * cos };
}
