import { Agreement, type IsKnown } from "./agreement.ts";
import { planOf } from "./passes.ts";
import type { Picture } from "./picture.ts";
import { readPasses } from "./read-picture.ts";
import type { SymbolRead, SymbolReader } from "./reader.ts";

/** How long a read waits for another that agrees: some frames of a slow device. */
const keptMs = 2000;

/**
 * Reads the frames of a camera. Each frame gets a part of the passes in turns, so that a camera
 * that sees no symbol costs little, and reads agree over frames.
 */
export class LiveReading {
  readonly #reader: SymbolReader;
  readonly #agreement: Agreement;
  #turn = 0;

  constructor(reader: SymbolReader, isKnown: IsKnown = () => false) {
    this.#reader = reader;
    this.#agreement = new Agreement(isKnown, keptMs);
  }

  /**
   * What this frame shows. Only reads that are `sure` count; the others may be drawn, and are sure
   * when a later frame agrees. The time is in milliseconds of any steady clock. One frame at a
   * time: wait for the answer before giving the next.
   */
  async next(picture: Picture, atMs: number): Promise<SymbolRead[]> {
    const { frames } = planOf(this.#reader);
    const passes = frames[this.#turn % frames.length]!;
    this.#turn += 1;
    const reads = await readPasses(this.#reader, picture, passes);
    return this.#agreement.judge(reads, atMs);
  }
}
