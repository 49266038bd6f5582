import { diagnoseScanner, readLabel, readPack, type LabelResult, type ReadOptions } from "#labels";

/** What the command line gives for every label that does not bring its own options. */
export type LabelLineOptions = {
  today: string;
  associations: "enforce" | "defer";
  gsTokens?: readonly string[];
};

/** How many labels or packs were read, and how many of these were refused. */
export type LabelLineCounts = { read: number; refused: number };

type Input = string | string[];
type SetUpScans = { gs1: string; hibc: string };
type Answer = { ok: boolean; [told: string]: unknown };

/** Far above any label: a line cut here is refused, and a stream without lines is bounded. */
const MAX_LINE_LENGTH = 1 << 20;

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/**
 * Cuts a stream into lines at line feeds alone: a raw label may contain any other control
 * character, and Unicode line separators are data. A carriage return before the line feed belongs
 * to it. A last line without a line feed counts; nothing after the last line feed does not. A line
 * longer than a million characters is cut there.
 */
export async function* splitLines(
  chunks: AsyncIterable<string | Uint8Array>,
): AsyncGenerator<string> {
  const decoder = new TextDecoder("utf-8");
  const line = new LineUnderway();
  for await (const chunk of chunks) {
    const text = typeof chunk === "string" ? chunk : decoder.decode(chunk, { stream: true });
    let from = 0;
    for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", from)) {
      line.append(text.slice(from, at));
      yield line.take();
      from = at + 1;
    }
    line.append(text.slice(from));
  }
  line.append(decoder.decode());
  if (line.hasText) yield line.take();
}

/** The pieces of a line of which more may come. */
class LineUnderway {
  #pieces: string[] = [];
  #length = 0;

  get hasText(): boolean {
    return this.#length > 0;
  }

  append(piece: string): void {
    if (piece === "" || this.#length > MAX_LINE_LENGTH) return;
    this.#pieces.push(piece.slice(0, MAX_LINE_LENGTH + 1 - this.#length));
    this.#length += piece.length;
  }

  take(): string {
    const text = this.#pieces.join("");
    this.#pieces = [];
    this.#length = 0;
    return text.endsWith("\r") ? text.slice(0, -1) : text;
  }
}

/**
 * Reads one label from each line and writes one line of JSON for each: what the label says, or the
 * kind of error and its span. A line is a JSON text (so that control characters can be escaped), a
 * JSON array of the texts of several scans of one label, a JSON object `{ input, options }` whose
 * options go before those of the command, a JSON object `{ pack, options }` with the labels of one
 * pack, a JSON object `{ scanner: { gs1, hibc } }` with what a scanner made of the two set-up symbols,
 * or else the label itself, of which nothing is trimmed. A line that looks like JSON but is none of
 * these is the label itself.
 */
export async function readLabelLines(
  lines: AsyncIterable<string>,
  options: LabelLineOptions,
  write: (line: string) => void,
): Promise<LabelLineCounts> {
  const counts = { read: 0, refused: 0 };
  for await (const line of lines) {
    const answer = answerLine(line, options);
    counts.read += 1;
    if (!answer.ok) counts.refused += 1;
    write(JSON.stringify(answer));
  }
  return counts;
}

/**
 * What is written for a label. Elements appear where the scheme has elements, and warnings by name
 * alone, each once.
 */
export function answerOf(result: LabelResult): Answer {
  if (!result.ok) return { ok: false, error: result.error };
  const { scheme, elements, fields } = result;
  const warnings = [...new Set(result.warnings.map(({ kind }) => kind))];
  const hasElements = scheme === "gs1" || scheme === "gs1-digital-link";
  return hasElements
    ? { ok: true, scheme, elements, fields, warnings }
    : { ok: true, scheme, fields, warnings };
}

function answerOfPack(pack: readonly Input[], options: ReadOptions): Answer {
  const { labels, ...reading } = readPack(pack, options);
  return { ...reading, labels: labels.map(answerOf) };
}

/** What the scanner does, as far as two texts tell it; `ok` says that it can be set right. */
function answerOfScanner({ gs1, hibc }: SetUpScans): Answer {
  const observe = (text: string) => ({
    typed: text,
    byPosition: text,
    gapsMs: [],
    capsLock: false,
  });
  const { profile, findings } = diagnoseScanner({ gs1: observe(gs1), hibc: observe(hibc) });
  return { ok: profile !== null, profile, findings };
}

function answerLine(line: string, options: LabelLineOptions): Answer {
  const value = readJson(line);
  if (isInput(value)) return answerOf(readLabel(value, options));
  if (isRecord(value)) {
    const { input, pack, scanner } = value;
    if (isSetUp(scanner)) return answerOfScanner(scanner);
    const own = optionsOf(value["options"] ?? {}, options);
    if (own !== undefined && isInput(input)) return answerOf(readLabel(input, own));
    if (own !== undefined && isInputs(pack)) return answerOfPack(pack, own);
  }
  return answerOf(readLabel(line, options));
}

function readJson(line: string): unknown {
  if (!/^["[{]/.test(line)) return undefined;
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return undefined;
  }
}

/** The options of one line over those of the command; undefined when one of them is malformed. */
function optionsOf(given: unknown, options: LabelLineOptions): ReadOptions | undefined {
  if (!isRecord(given)) return undefined;
  const {
    reference_date: today = options.today,
    associations = options.associations,
    gs_tokens: gsTokens = options.gsTokens ?? [],
    permit_zero_suppressed_gtin: permitZeroSuppressedGtin = false,
  } = given;
  if (typeof today !== "string" || !DAY.test(today)) return undefined;
  if (associations !== "enforce" && associations !== "defer") return undefined;
  if (!isTexts(gsTokens) || typeof permitZeroSuppressedGtin !== "boolean") return undefined;
  return { today, associations, gsTokens, permitZeroSuppressedGtin };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isTexts(value: unknown): value is string[] {
  return Array.isArray(value) && value.every((item) => typeof item === "string");
}

function isInput(value: unknown): value is Input {
  return typeof value === "string" || isTexts(value);
}

const isInputs = (value: unknown): value is Input[] => Array.isArray(value) && value.every(isInput);

function isSetUp(value: unknown): value is SetUpScans {
  return isRecord(value) && typeof value["gs1"] === "string" && typeof value["hibc"] === "string";
}
