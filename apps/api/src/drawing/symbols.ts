import { ownElement } from "#domain";

type Modules = readonly (readonly boolean[])[];

/** The Data Matrix of one of our codes: a GS1 element string with nothing but the code. */
export async function symbolOfCode(code: string): Promise<Modules> {
  const { ai, value } = ownElement(code);
  return matrixOf("gs1datamatrix", `(${ai})${value}`);
}

/** The room of such a symbol, for what has no code yet. */
export const noSymbol: Modules = Array.from({ length: 16 }, () => Array<boolean>(16).fill(false));

/** A square symbol by its modules. Of GS1 data the AIs stand in brackets. */
export async function matrixOf(
  symbology: "gs1datamatrix" | "datamatrix" | "qrcode",
  text: string,
): Promise<Modules> {
  const { default: bwip } = await import("bwip-js/node");
  const [raw] = bwip.raw({ bcid: symbology, text }) as unknown as [
    { pixs: number[]; pixx: number; pixy: number },
  ];
  const { pixs, pixx, pixy } = raw;
  return Array.from({ length: pixy }, (_, y) =>
    Array.from({ length: pixx }, (_dot, x) => pixs[y * pixx + x] === 1),
  );
}

/** The bars of a linear symbol as a row of modules. */
export async function barsOf(symbology: "code128" | "code39", text: string): Promise<boolean[]> {
  const { default: bwip } = await import("bwip-js/node");
  const [raw] = bwip.raw({ bcid: symbology, text }) as unknown as [{ sbs: number[] }];
  return raw.sbs.flatMap((width, index) => Array<boolean>(width).fill(index % 2 === 0));
}
