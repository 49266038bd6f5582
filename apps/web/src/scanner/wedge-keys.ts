/** What one key means in a scan: read as typed, and by its place on a United States keyboard. */
import { usLayout } from "./us-layout.ts";

/** One key as the browser reports it. */
export interface WedgeKey {
  atMs: number;
  down: boolean;
  key: string;
  /** The physical key: it tells the control characters whatever the keyboard's layout. */
  code: string;
  shift: boolean;
  ctrl: boolean;
  alt: boolean;
  meta: boolean;
  repeat: boolean;
  /** The focus is in something that takes text. */
  inText: boolean;
}

export interface Stroke {
  typed: string;
  byPosition: string;
  /** `text` comes back if it was typing after all; nothing else can be put back. */
  kind: "text" | "control" | "named";
  /** The letter's case is not the one that Shift asks for. */
  inverted: boolean;
}

export type EndKey = "Enter" | "Tab";

const modifiers = new Set([
  "Shift",
  "Control",
  "Alt",
  "AltGraph",
  "Meta",
  "CapsLock",
  "NumLock",
  "Fn",
]);
export const isModifier = ({ key }: WedgeKey): boolean => modifiers.has(key);

// A character that is not known, of a dead key for one; a mark that no label contains makes the
// reader refuse the label rather than take a shortened one.
const unknownCharacter = "\u{fffd}";

// How scanners send the control characters of ISO/IEC 15434 and GS1: Ctrl and the physical key.
const controlByCode: Readonly<Record<string, string>> = {
  BracketLeft: "\u001b",
  Backslash: "\u001c",
  BracketRight: "\u001d",
  Digit6: "\u001e",
  Minus: "\u001f",
};

function readControl({ key, code }: WedgeKey): string | null {
  const known = controlByCode[code];
  if (known !== undefined) return known;
  if (key === "]" || key === "\u001d") return "\u001d";
  const letter = /^Key([A-Z])$/.exec(code)?.[1];
  return letter === undefined ? null : String.fromCharCode(letter.charCodeAt(0) - 64);
}

/** The end key that a key is, also where a scanner sends it as its control character. */
export function readEndKey(press: WedgeKey): EndKey | null {
  const { key, ctrl, alt, meta } = press;
  if (alt || meta) return null;
  if (!ctrl) return key === "Enter" || key === "Tab" ? key : null;
  const control = readControl(press);
  if (control === "\t") return "Tab";
  return control === "\r" || control === "\n" ? "Enter" : null;
}

/** What an end key is where it ends nothing. */
export const characterOf: Readonly<Record<EndKey, string>> = { Enter: "\r", Tab: "\t" };

const sameIn = (text: string, kind: Stroke["kind"]): Stroke => ({
  typed: text,
  byPosition: text,
  kind,
  inverted: false,
});

/** Windows makes a character of Alt and digits of the keypad; those beyond ASCII vary by host. */
export const strokeOfAltCode = (value: number): Stroke =>
  sameIn(value > 0 && value < 128 ? String.fromCharCode(value) : unknownCharacter, "control");

export const strokeOfEndKey = (end: EndKey): Stroke => sameIn(characterOf[end], "control");

/** What a key stands for in a scan, or `null` where it stands for nothing. */
export function readStroke(press: WedgeKey): Stroke | null {
  const { key, code, shift, ctrl, alt, meta } = press;
  if (ctrl && !alt) {
    const control = readControl(press);
    return control === null ? null : sameIn(control, "control");
  }
  if (meta) return null;
  const [plain, shifted] = usLayout.get(code) ?? [];
  const place = shift ? shifted : plain;
  if (key.length === 1) {
    // With AltGr the layout is the host's own: no place of a United States keyboard is meant.
    const byPosition = alt || place === undefined ? key : place;
    const inverted = !alt && /^[A-Za-z]$/.test(key) && /[A-Z]/.test(key) !== shift;
    const kind = key < " " ? "control" : "text";
    return { typed: key, byPosition, kind, inverted };
  }
  if (key === "Dead" || place !== undefined) {
    const byPosition = place ?? unknownCharacter;
    return { typed: unknownCharacter, byPosition, kind: "control", inverted: false };
  }
  return sameIn(`{${key}}`, "named");
}

/** Function keys, which some scanners send for a separator or in front of every label. */
export const isFunctionKey = ({ key }: WedgeKey): boolean => /^F([1-9]|1\d|2[0-4])$/.test(key);
