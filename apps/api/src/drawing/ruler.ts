import type { Drawing, DrawnRule, DrawnText, MeasureText } from "#domain";

const strokeUm = 100;
const tickUm = [1_500, 2_200, 3_000] as const;
const emUm = 2_000;

/** A ruler with a tick a millimetre and a number every ten, from the given corner on. */
export function drawRuler(
  along: { xUm: number; yUm: number; lengthUm: number; down?: boolean },
  measure: MeasureText,
): Pick<Drawing, "rules" | "texts"> {
  const { xUm, yUm, lengthUm, down = false } = along;
  const rules: DrawnRule[] = [];
  const texts: DrawnText[] = [];
  for (let mm = 0; mm * 1000 <= lengthUm; mm += 1) {
    const long = tickUm[mm % 10 === 0 ? 2 : mm % 5 === 0 ? 1 : 0];
    // The middle of the stroke is the place.
    const at = mm * 1000 - strokeUm / 2;
    rules.push(
      down
        ? { xUm, yUm: yUm + at, widthUm: long, heightUm: strokeUm }
        : { xUm: xUm + at, yUm, widthUm: strokeUm, heightUm: long },
    );
    if (mm % 10 !== 0) continue;
    const text = String(mm);
    const widthUm = measure(text, "regular") * emUm;
    const place = down
      ? { xUm: xUm + tickUm[2] + 400, baselineUm: yUm + at + 0.36 * emUm }
      : { xUm: xUm + at - widthUm / 2, baselineUm: yUm + tickUm[2] + emUm };
    texts.push({ text, ...place, emUm, widthUm, weight: "regular" });
  }
  return { rules, texts };
}

/** The four sides of a rectangle, drawn inside of it. */
export function drawOutline(box: DrawnRule, thickUm: number = strokeUm): DrawnRule[] {
  const { xUm, yUm, widthUm, heightUm } = box;
  return [
    { xUm, yUm, widthUm, heightUm: thickUm },
    { xUm, yUm: yUm + heightUm - thickUm, widthUm, heightUm: thickUm },
    { xUm, yUm, widthUm: thickUm, heightUm },
    { xUm: xUm + widthUm - thickUm, yUm, widthUm: thickUm, heightUm },
  ];
}

/** A cross with its middle at the given place. */
export function drawCross(xUm: number, yUm: number, armUm: number): DrawnRule[] {
  const half = strokeUm / 2;
  return [
    { xUm: xUm - armUm, yUm: yUm - half, widthUm: 2 * armUm, heightUm: strokeUm },
    { xUm: xUm - half, yUm: yUm - armUm, widthUm: strokeUm, heightUm: 2 * armUm },
  ];
}
