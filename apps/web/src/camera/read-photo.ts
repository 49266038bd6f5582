import { sharedDecoder } from "./decoder.ts";
import { takePhoto } from "./pixels.ts";
import { makeOneLabel, readSight } from "./sight.ts";
import { Sightings } from "./sightings.ts";

export interface PhotoRead {
  /** What to give on as scans, in this order. */
  give: string[];
  /** Why nothing or not all is given: the name of the text that says so. */
  fault: "noPicture" | "nothingInPhoto" | "unsureInPhoto" | "crowded" | "readerFailed" | null;
}

/** Reads the labels in one photo; `today` is a civil date. */
export async function readPhoto(file: File, today: string): Promise<PhotoRead> {
  const pixels = await takePhoto(file).catch(() => null);
  if (pixels === null) return { give: [], fault: "noPicture" };
  const reads = await sharedDecoder().look("photo", pixels, performance.now());
  if (reads === null) return { give: [], fault: "readerFailed" };
  const sights = reads.filter(({ sure }) => sure).map(({ text }) => readSight(text, today));
  const sightings = new Sightings((first, second) => makeOneLabel(first, second, today));
  const { give, isCrowded } = sightings.next(sights, 0, true);
  if (isCrowded) return { give, fault: "crowded" };
  if (give.length > 0) return { give, fault: null };
  return { give, fault: reads.length > 0 ? "unsureInPhoto" : "nothingInPhoto" };
}
