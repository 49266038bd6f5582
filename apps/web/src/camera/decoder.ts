/** The page's side of the worker that reads pictures. */
import type { SymbolRead } from "#decode";

/** Pixels as they travel: a bitmap, or four bytes a pixel where the worker has no canvas. */
export type Pixels = ImageBitmap | { rgba: Uint8ClampedArray; width: number; height: number };

export interface Asked {
  id: number;
  /** Reads of frames agree with each other over time; a photo stands alone. */
  kind: "frame" | "photo";
  pixels: Pixels;
  atMs: number;
}

export type ReaderKind = "wasm" | "script";

export type Told =
  | { kind: "ready"; reader: ReaderKind }
  /** `null` where the picture could not be looked at. */
  | { kind: "looked"; id: number; reads: SymbolRead[] | null };

export class Decoder {
  /** Which reader runs here; rejects where none does. */
  readonly ready: Promise<ReaderKind>;
  readonly #worker: Worker;
  readonly #waiting = new Map<number, (reads: SymbolRead[] | null) => void>();
  #count = 0;

  constructor() {
    this.#worker = new Worker(new URL("./decode-worker.ts", import.meta.url), { type: "module" });
    this.ready = new Promise((resolve, reject) => {
      this.#worker.addEventListener("message", ({ data }: MessageEvent<Told>) => {
        if (data.kind === "ready") return resolve(data.reader);
        this.#waiting.get(data.id)?.(data.reads);
        this.#waiting.delete(data.id);
      });
      this.#worker.addEventListener("error", () => {
        reject(new Error("the reader does not start"));
        if (shared === this) shared = undefined;
        for (const answer of this.#waiting.values()) answer(null);
        this.#waiting.clear();
      });
    });
    // Whoever asks hears of it; nobody need ask.
    this.ready.catch(() => undefined);
  }

  /** The symbols of a picture, whose pixels are given away; `null` where it cannot be looked at. */
  look(kind: Asked["kind"], pixels: Pixels, atMs: number): Promise<SymbolRead[] | null> {
    this.#count += 1;
    const asked: Asked = { id: this.#count, kind, pixels, atMs };
    const given = pixels instanceof ImageBitmap ? pixels : pixels.rgba.buffer;
    return new Promise((resolve) => {
      this.#waiting.set(asked.id, resolve);
      this.#worker.postMessage(asked, [given]);
    });
  }
}

let shared: Decoder | undefined;

/** The one of this page: made when it is first wanted, and kept, since making it takes a while. */
export function sharedDecoder(): Decoder {
  shared ??= new Decoder();
  return shared;
}
