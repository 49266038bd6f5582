/** A grey picture: one byte a pixel, 0 black and 255 white, row after row without gaps. */
export interface Picture {
  readonly grey: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

/** A place in a picture, in pixels from its upper left corner; need not be whole. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A black picture of that size, in whole pixels. */
export function emptyPicture(width: number, height: number): Picture {
  return { grey: new Uint8ClampedArray(width * height), width, height };
}

/**
 * The brightness of the pixels of a canvas or of a decoded file (four bytes each: red, green, blue
 * and opacity), weighted as by ITU-R BT.601; what is not opaque lies on white. The sizes are in
 * pixels. It throws a RangeError when the bytes are fewer than the sizes say.
 */
export function greyOf(rgba: Uint8ClampedArray, width: number, height: number): Picture {
  if (rgba.length < width * height * 4) throw new RangeError("fewer bytes than pixels");
  const picture = emptyPicture(width, height);
  const { grey } = picture;
  for (let at = 0, from = 0; at < grey.length; at += 1, from += 4) {
    const level = (77 * rgba[from]! + 150 * rgba[from + 1]! + 29 * rgba[from + 2]! + 128) >> 8;
    const opacity = rgba[from + 3]!;
    grey[at] = opacity === 255 ? level : 255 - ((255 - level) * opacity) / 255;
  }
  return picture;
}

/** The picture at half its size, each pixel the mean of four; an odd last row or column is lost. */
export function halve({ grey, width, height }: Picture): Picture {
  const half = emptyPicture(Math.floor(width / 2), Math.floor(height / 2));
  for (let row = 0, at = 0; row < half.height; row += 1) {
    let from = 2 * row * width;
    for (let column = 0; column < half.width; column += 1, at += 1, from += 2) {
      const upper = grey[from]! + grey[from + 1]!;
      half.grey[at] = (upper + grey[from + width]! + grey[from + width + 1]!) / 4;
    }
  }
  return half;
}
