/**
 * Tells the burst of a keyboard-wedge scanner from a person's typing, by timing alone: keys at most
 * `maxGapMs` apart, at least `minKeys` of them, ended by an end key or, where the scanner has none,
 * by a pause. Pure: it sees keys with their times and says what is to become of each.
 *
 * The first key of a burst cannot be told from typing, so it lands (in a text field, the first
 * two); when the burst turns out to be a scan, what landed is undone from the snapshot taken at
 * `begins`. Every further fast key is held. A run that turns out to be typing gives its held keys
 * back.
 */
import { usualScannerProfile, type ScannerBurst } from "#labels";
import {
  isFunctionKey,
  isModifier,
  readEndKey,
  readStroke,
  strokeOfAltCode,
  strokeOfEndKey,
  type EndKey,
  type Stroke,
  type WedgeKey,
} from "./wedge-keys.ts";

export interface WedgeSettings {
  minKeys: number;
  maxGapMs: number;
  endKeys: readonly EndKey[];
  /** A pause ends a burst. */
  endsBySilence: boolean;
}

export const usualSettings: WedgeSettings = {
  minKeys: usualScannerProfile.minKeys,
  maxGapMs: usualScannerProfile.maxGapMs,
  endKeys: ["Enter", "Tab"],
  endsBySilence: false,
};

/** A whole scan, byte for byte, and how it came. */
export interface Burst extends ScannerBurst {
  /** `null` where a pause ended it. */
  endKey: EndKey | null;
  /** Between one key and the next, in milliseconds. */
  gapsMs: number[];
  /** A letter came in the other case than Shift asked for: Caps Lock is on. */
  capsLock: boolean;
}

export interface WedgeAnswer {
  /** Text held until now that turned out to be typing: put it in before this key takes effect. */
  release: string;
  /** Keep this key from the page. */
  hold: boolean;
  /** A run begins with this key: remember what the focused element contains. */
  begins: boolean;
  /** A whole scan; undo what its first keys did. */
  scan: Burst | null;
  /** A burst as fast as a scan came to its end without an end key. */
  endless: boolean;
  /** What it is shows only when no key follows for longer still: rest again. */
  waits: boolean;
}

const nothing: WedgeAnswer = {
  release: "",
  hold: false,
  begins: false,
  scan: null,
  endless: false,
  waits: false,
};

// A busy machine may deliver the next key late, and a scan must not be cut in two.
const silenceBeyondGapMs = 90;
/** So many fast keys no person makes with Ctrl, or before a function key. */
const unlikelyKeys = 2;

interface Run {
  typed: string;
  byPosition: string;
  keys: number;
  held: string;
  lastMs: number;
  gapsMs: number[];
  capsLock: boolean;
  toldEndless: boolean;
}

/** A listener that has seen no key yet. */
export class Wedge {
  private run: Run | null = null;
  private numpad = "";
  private scannedMs = Number.NEGATIVE_INFINITY;

  constructor(private readonly settings: WedgeSettings = usualSettings) {}

  press(key: WedgeKey): WedgeAnswer {
    const collected = this.collectNumpad(key);
    if (collected !== null) return collected;
    if (isModifier(key)) {
      if (key.key === "Alt") this.numpad = "";
      this.keepUp(key.atMs);
      return nothing;
    }
    if (!key.down) return nothing;
    // A key held down repeats as fast as a scanner types.
    if (key.repeat) return this.end();
    const endKey = readEndKey(key);
    if (endKey !== null) return this.finish(key, endKey);
    const stroke = readStroke(key);
    if (stroke === null) return this.end();
    return this.isTypable(key, stroke) ? this.add(key, stroke) : this.end();
  }

  /** No key came for a while: gives back what is held, without ending the run. */
  rest(atMs: number): WedgeAnswer {
    const { run } = this;
    if (run === null) return nothing;
    if (this.isFast(atMs)) return { ...nothing, waits: true };
    const isLong = run.keys >= this.settings.minKeys;
    if (isLong && this.settings.endsBySilence) {
      const silent = atMs - run.lastMs > this.settings.maxGapMs + silenceBeyondGapMs;
      return silent ? { ...nothing, scan: this.take(run, null) } : { ...nothing, waits: true };
    }
    const release = run.held;
    const endless = isLong && !run.toldEndless;
    run.held = "";
    run.toldEndless ||= endless;
    return { ...nothing, release, endless };
  }

  /** Whether what the browser makes of the keys by itself belongs to a burst, too. */
  isHolding(atMs: number): boolean {
    return this.isFast(atMs) && this.run!.keys > unlikelyKeys;
  }

  private isFast(atMs: number): boolean {
    return this.run !== null && atMs - this.run.lastMs <= this.settings.maxGapMs;
  }

  private keepUp(atMs: number): void {
    const { run } = this;
    if (run === null || !this.isFast(atMs)) return;
    run.gapsMs.push(Math.max(0, Math.round(atMs - run.lastMs)));
    run.lastMs = atMs;
  }

  private hasFast(atMs: number, keys: number): boolean {
    return this.isFast(atMs) && this.run!.keys >= keys;
  }

  // Named keys are typed by nobody in the midst of a burst; elsewhere they are a person's.
  private isTypable(key: WedgeKey, { kind }: Stroke): boolean {
    if (kind !== "named") return true;
    if (!isFunctionKey(key)) return this.hasFast(key.atMs, this.settings.minKeys);
    return !this.isFast(key.atMs) || this.hasFast(key.atMs, unlikelyKeys);
  }

  private end(): WedgeAnswer {
    const release = this.run?.held ?? "";
    this.run = null;
    this.numpad = "";
    return { ...nothing, release };
  }

  private add({ atMs, inText }: WedgeKey, stroke: Stroke): WedgeAnswer {
    const { typed, byPosition, kind, inverted } = stroke;
    if (!this.isFast(atMs)) {
      const ended = this.end();
      const text = { typed, byPosition, held: "", keys: 1 };
      const told = { capsLock: inverted, toldEndless: false };
      this.run = { ...text, ...told, lastMs: atMs, gapsMs: [] };
      return { ...ended, begins: true };
    }
    this.keepUp(atMs);
    const run = this.run!;
    run.typed += typed;
    run.byPosition += byPosition;
    run.keys += 1;
    run.capsLock ||= inverted;
    const hold = run.keys > (inText || kind !== "text" ? unlikelyKeys : 1);
    if (hold && kind === "text") run.held += typed;
    return { ...nothing, hold };
  }

  private take(run: Run, endKey: EndKey | null): Burst {
    const { typed, byPosition, gapsMs, capsLock } = run;
    this.run = null;
    this.numpad = "";
    return { typed, byPosition, endKey, gapsMs, capsLock };
  }

  private finish(key: WedgeKey, endKey: EndKey): WedgeAnswer {
    const { atMs } = key;
    const { endKeys, minKeys, maxGapMs } = this.settings;
    if (this.hasFast(atMs, minKeys)) {
      if (!endKeys.includes(endKey)) return this.add(key, strokeOfEndKey(endKey));
      this.keepUp(atMs);
      this.scannedMs = atMs;
      return { ...nothing, hold: true, scan: this.take(this.run!, endKey) };
    }
    // Some scanners send two end keys.
    if (this.run === null && atMs - this.scannedMs <= maxGapMs) {
      this.scannedMs = atMs;
      return { ...nothing, hold: true };
    }
    return this.end();
  }

  // Alt with digits of the keypad: Windows makes one character of them when Alt is let go.
  private collectNumpad(key: WedgeKey): WedgeAnswer | null {
    if (key.down && key.alt && !key.ctrl && /^Numpad\d$/.test(key.code)) {
      const ended = this.run === null || this.isFast(key.atMs) ? nothing : this.end();
      this.numpad += key.code.slice(-1);
      this.keepUp(key.atMs);
      return { ...ended, hold: this.run !== null };
    }
    if (key.down || key.key !== "Alt" || this.numpad === "") return null;
    const value = Number(this.numpad);
    this.numpad = "";
    return this.add(key, strokeOfAltCode(value));
  }
}
