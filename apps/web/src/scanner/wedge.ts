/**
 * Tells the burst of a keyboard-wedge scanner from a person's typing, by timing alone: keys at most
 * `maxGapMs` apart, at least `minKeys` of them, ended by Enter or Tab. Pure: it sees keys with
 * their times and says what is to become of each.
 *
 * The first key of a burst cannot be told from typing, so it lands (in a text field, the first
 * two); when the burst turns out to be a scan, what landed is undone from the snapshot taken at
 * `begins`. Every further fast key is held. A run that turns out to be typing gives its held keys
 * back.
 */

export interface WedgeSettings {
  minKeys: number;
  maxGapMs: number;
}

/** Six keys: shorter codes are typed by hand. 35 ms: a slow Bluetooth scanner; people need 60. */
export const usualSettings: WedgeSettings = { minKeys: 6, maxGapMs: 35 };

/** One key as the browser reports it. */
export interface WedgeKey {
  atMs: number;
  down: boolean;
  key: string;
  /** The physical key: it tells the control characters whatever the keyboard's layout. */
  code: string;
  ctrl: boolean;
  alt: boolean;
  meta: boolean;
  repeat: boolean;
  /** The focus is in something that takes text. */
  inText: boolean;
}

export interface WedgeAnswer {
  /** Text held until now that turned out to be typing: put it in before this key takes effect. */
  release: string;
  /** Keep this key from the page. */
  hold: boolean;
  /** A run begins with this key: remember what the focused element contains. */
  begins: boolean;
  /** A whole scan, byte for byte; undo what its first keys did. */
  scan: string | null;
  /** A burst as fast as a scan came to its end without an end key. */
  endless: boolean;
}

const nothing: WedgeAnswer = {
  release: "",
  hold: false,
  begins: false,
  scan: null,
  endless: false,
};
const modifiers = new Set(["Shift", "Control", "Alt", "AltGraph", "Meta", "CapsLock", "NumLock"]);

// How scanners send the control characters of ISO/IEC 15434 and GS1: Ctrl and the physical key.
const controlByCode: Readonly<Record<string, string>> = {
  BracketRight: "\u001d",
  Backslash: "\u001c",
  Digit6: "\u001e",
  Minus: "\u001f",
  KeyD: "\u0004",
};

// A dead key's character is unknown; a mark that no label contains makes the reader refuse the
// label rather than take a shortened one.
const unknownCharacter = "\u{fffd}";

/** The character a key stands for in a scan, or `null` where it stands for none. */
function readCharacter(press: WedgeKey): string | null {
  if (press.ctrl && !press.alt) return controlByCode[press.code] ?? null;
  if (press.meta) return null;
  if (press.key === "Dead") return unknownCharacter;
  return press.key.length === 1 ? press.key : null;
}

interface Run {
  text: string;
  keys: number;
  held: string;
  lastMs: number;
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
    if (!key.down) return nothing;
    if (modifiers.has(key.key)) {
      if (key.key === "Alt") this.numpad = "";
      if (this.run !== null && this.isFast(key.atMs)) this.run.lastMs = key.atMs;
      return nothing;
    }
    // A key held down repeats as fast as a scanner types.
    if (key.repeat) return this.end();
    const isEnd = key.key === "Enter" || key.key === "Tab";
    if (isEnd && !key.ctrl && !key.alt && !key.meta) return this.finish(key);
    const character = readCharacter(key);
    return character === null ? this.end() : this.add(key, character);
  }

  /** No key came for a while: gives back what is held, without ending the run. */
  rest(atMs: number): WedgeAnswer {
    const { run } = this;
    if (run === null || this.isFast(atMs)) return nothing;
    const release = run.held;
    const endless = run.keys >= this.settings.minKeys && !run.toldEndless;
    run.held = "";
    run.toldEndless ||= endless;
    return { ...nothing, release, endless };
  }

  private isFast(atMs: number): boolean {
    return this.run !== null && atMs - this.run.lastMs <= this.settings.maxGapMs;
  }

  private end(): WedgeAnswer {
    const release = this.run?.held ?? "";
    this.run = null;
    this.numpad = "";
    return { ...nothing, release };
  }

  private add({ atMs, inText }: WedgeKey, character: string): WedgeAnswer {
    const { run } = this;
    if (run === null || !this.isFast(atMs)) {
      const ended = this.end();
      this.run = { text: character, keys: 1, held: "", lastMs: atMs, toldEndless: false };
      return { ...ended, begins: true };
    }
    run.text += character;
    run.keys += 1;
    run.lastMs = atMs;
    const hold = run.keys > (inText ? 2 : 1);
    if (hold && character >= " " && character !== unknownCharacter) run.held += character;
    return { ...nothing, hold };
  }

  private finish({ atMs }: WedgeKey): WedgeAnswer {
    const { run } = this;
    if (run !== null && this.isFast(atMs) && run.keys >= this.settings.minKeys) {
      this.run = null;
      this.scannedMs = atMs;
      return { ...nothing, hold: true, scan: run.text };
    }
    // Some scanners send two end keys.
    if (run === null && atMs - this.scannedMs <= this.settings.maxGapMs) {
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
      if (this.run !== null) this.run.lastMs = key.atMs;
      return { ...ended, hold: this.run !== null };
    }
    if (key.down || key.key !== "Alt" || this.numpad === "") return null;
    const value = Number(this.numpad);
    this.numpad = "";
    return value < 128 ? this.add(key, String.fromCharCode(value)) : nothing;
  }
}
