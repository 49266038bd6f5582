/** Who reads the pictures, and how their answers are counted. */
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import {
  LiveReading,
  makeScriptReader,
  makeWasmReader,
  readPicture,
  type Effort,
  type Picture,
  type SymbolFormat,
} from "#decode";
import type { LabelPicture } from "./label-pictures.ts";
import type { Symbology } from "./label-symbols.ts";

/** A text that was read; `sure` when the reader lets it count. */
export interface Answer {
  text: string;
  sure: boolean;
}

export interface Contender {
  name: string;
  /** Reads frames of one scene; a reader of stills takes the first. */
  read(frames: readonly Picture[], symbology?: Symbology): Promise<Answer[]>;
  /** How many of the frames it looks at. */
  looksAt(frames: readonly Picture[]): number;
}

const fourFormats: readonly SymbolFormat[] = ["DataMatrix", "QRCode", "Code128", "EAN13"];
const everything: Omit<Effort, "formats"> = {
  harder: true,
  rotated: true,
  inverted: true,
  shrunk: true,
};

export async function makeContenders() {
  const path = createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm");
  const wasm = await makeWasmReader(new Uint8Array(await readFile(path)).buffer);
  const script = makeScriptReader();
  const one = (): number => 1;
  /** `zxing-wasm` alone: one pass that tries everything; Code 39 only where one is drawn. */
  const baseline: Contender = {
    name: "zxing-wasm, one pass",
    looksAt: one,
    async read([picture], symbology) {
      const hasCode39 = symbology === "HIBC Code 39";
      const formats = hasCode39 ? [...fourFormats, "Code39" as const] : fourFormats;
      const found = await wasm.read(picture!, { ...everything, formats });
      return found.map(({ text }) => ({ text, sure: true }));
    },
  };
  const still: Contender = {
    name: "ours, still",
    looksAt: one,
    read: ([picture]) => readPicture(wasm, picture!),
  };
  const live: Contender = {
    name: "ours, live",
    looksAt: (frames) => frames.length,
    read: (frames) => readLive(new LiveReading(wasm), frames),
  };
  const withoutWasm: Contender = {
    name: "ours, script",
    looksAt: one,
    read: ([picture]) => readPicture(script, picture!),
  };
  return { baseline, still, live, withoutWasm };
}

/** What ten frames a second give together; the first look that is sure of a text counts. */
async function readLive(reading: LiveReading, frames: readonly Picture[]): Promise<Answer[]> {
  const answers = new Map<string, Answer>();
  for (const [at, frame] of frames.entries()) {
    for (const { text, sure } of await reading.next(frame, at * 100)) {
      answers.set(text, { text, sure: sure || answers.get(text)?.sure === true });
    }
  }
  return [...answers.values()];
}

/** What one contender gave over many pictures. */
export class Tally {
  pictures = 0;
  read = 0;
  /** Texts that count and are not on the label. */
  wrong: string[] = [];
  /** Texts that are not on the label, held back. */
  heldBack: string[] = [];
  milliseconds = 0;
  readonly readOf = new Map<string, number>();

  async add(contender: Contender, picture: LabelPicture): Promise<void> {
    const { expected, frames, symbology, degradation } = picture;
    const answers = await this.#time(contender, frames, symbology);
    this.#sort(answers.filter(({ text }) => text !== expected));
    if (!answers.some(({ text, sure }) => sure && text === expected)) return;
    this.read += 1;
    for (const key of [symbology, degradation]) {
      this.readOf.set(key, (this.readOf.get(key) ?? 0) + 1);
    }
  }

  /** A scene without a symbol. */
  async addEmpty(contender: Contender, frames: readonly Picture[]): Promise<void> {
    this.#sort(await this.#time(contender, frames));
  }

  #sort(answers: readonly Answer[]): void {
    for (const { text, sure } of answers) (sure ? this.wrong : this.heldBack).push(text);
  }

  async #time(
    contender: Contender,
    frames: readonly Picture[],
    symbology?: Symbology,
  ): Promise<Answer[]> {
    const before = process.cpuUsage();
    const answers = await contender.read(frames, symbology);
    const { user, system } = process.cpuUsage(before);
    this.pictures += 1;
    this.milliseconds += (user + system) / 1000 / contender.looksAt(frames);
    return answers;
  }
}
