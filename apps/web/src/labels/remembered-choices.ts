/** How labels were last printed on this device. */
import { readRemembered, remember } from "../ui/remembered.ts";
import { fitStart } from "./sheet-places.ts";

/** A label printer by its id behind `printer:`, a sheet, one label a page, or a file. */
export type Way = `printer:${string}` | "sheet" | "roll" | "file";

const isWay = (text: string): text is Way => /^(printer:.+|sheet|roll|file)$/.test(text);

/** The way taken last, if it is still there; else the first printer, else a sheet. */
export function readWay(printerIds: readonly string[]): Way {
  const kept = readRemembered("labels.way") ?? "";
  const isThere = !kept.startsWith("printer:") || printerIds.includes(kept.slice(8));
  if (isWay(kept) && isThere) return kept;
  return printerIds[0] === undefined ? "sheet" : `printer:${printerIds[0]}`;
}

export const keepWay = (way: Way): void => remember("labels.way", way);

export const readSheetId = (): string | null => readRemembered("labels.sheet");
export const keepSheetId = (id: string): void => remember("labels.sheet", id);

/** The first free label of the sheet that is in use. */
export const readStart = (sheetId: string, places: number): number =>
  fitStart(Number(readRemembered(`labels.start.${sheetId}`) ?? "1"), places);
export const keepStart = (sheetId: string, start: number): void =>
  remember(`labels.start.${sheetId}`, start === 1 ? null : String(start));

export type Dots = "203" | "300" | "600";
export const dotsChoices: readonly Dots[] = ["203", "300", "600"];
export const readDots = (): Dots =>
  dotsChoices.find((dots) => dots === readRemembered("labels.dots")) ?? "300";
export const keepDots = (dots: Dots): void => remember("labels.dots", dots);
