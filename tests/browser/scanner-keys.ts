/** The keys of a scanner as the browser is given them: strokes on a host with its own layout. */
import {
  characterAtHost,
  keysOfScanner,
  type Host,
  type ScannerKey,
} from "../../libs/labels/simulated-scanner.fixture.ts";

/** One event of `Input.dispatchKeyEvent`, without its time. */
export interface Stroke {
  type: "keyDown" | "keyUp" | "rawKeyDown";
  key: string;
  code: string;
  windowsVirtualKeyCode: number;
  modifiers?: number;
  text?: string;
}

export interface ScannerAtHost {
  host?: Host;
  caps?: boolean;
  end?: "Enter" | "Tab" | "none";
  /** What is sent for the group separator; `{F8}` is the key of that name. */
  separator?: string;
}

const control = 2;
const shift = 8;
const named: Readonly<Record<string, number>> = { Enter: 13, Tab: 9, F8: 119 };
const held = {
  shift: { key: "Shift", code: "ShiftLeft", windowsVirtualKeyCode: 16 },
  control: { key: "Control", code: "ControlLeft", windowsVirtualKeyCode: 17 },
};

const virtualKeyOf = (code: string): number =>
  /^(Key|Digit)/.test(code) ? code.charCodeAt(code.length - 1) : 220;

function pressNamed(key: string): Stroke[] {
  const stroke = { key, code: key, windowsVirtualKeyCode: named[key] ?? 0 };
  const down: Stroke =
    key === "Enter"
      ? { type: "keyDown", ...stroke, text: "\r" }
      : { type: "rawKeyDown", ...stroke };
  return [down, { type: "keyUp", ...stroke }];
}

function press(key: ScannerKey, host: Host, caps: boolean): Stroke[] {
  const character = characterAtHost(key, host, caps);
  const isDead = character === "◌";
  const around = key.ctrl ? held.control : key.shift ? held.shift : null;
  const modifiers = (key.ctrl ? control : 0) + (key.shift ? shift : 0);
  const stroke = {
    key: isDead ? "Dead" : character,
    code: key.code,
    windowsVirtualKeyCode: virtualKeyOf(key.code),
    modifiers,
  };
  const types = !key.ctrl && !isDead;
  const strokes: Stroke[] = [
    types ? { type: "keyDown", ...stroke, text: character } : { type: "rawKeyDown", ...stroke },
    { type: "keyUp", ...stroke },
  ];
  if (around === null) return strokes;
  return [{ type: "rawKeyDown", ...around, modifiers }, ...strokes, { type: "keyUp", ...around }];
}

/** The strokes of a scanner set to a United States keyboard, on a host with its own layout. */
export function strokesOf(text: string, at: ScannerAtHost = {}): Stroke[] {
  const { host = "US", caps = false, end = "Enter", separator = "\u001d" } = at;
  const sent = text.replaceAll("\u001d", () => separator);
  const strokes = sent
    .split(/(\{F8\})/)
    .flatMap((part) =>
      part === "{F8}"
        ? pressNamed("F8")
        : keysOfScanner(part, "US").flatMap((key) => press(key, host, caps)),
    );
  return end === "none" ? strokes : [...strokes, ...pressNamed(end)];
}
