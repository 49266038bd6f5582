import type { ScannerObservation } from "./index.ts";

/**
 * A keyboard scanner and its host, for tests: from the text that a scanner sends to the keys it
 * presses by its own layout, and to the characters that the host's layout makes of them. All
 * layouts from memory; they are those that Windows calls United States, United Kingdom, French
 * (legacy), Belgian (period), German and Swiss German. `◌` stands for a dead key.
 */
export const hosts = ["US", "UK", "FR", "BE", "DE", "CH"] as const;
export type Host = (typeof hosts)[number];

const CODES = [
  "Backquote Digit1 Digit2 Digit3 Digit4 Digit5 Digit6 Digit7 Digit8 Digit9 Digit0 Minus Equal",
  "KeyQ KeyW KeyE KeyR KeyT KeyY KeyU KeyI KeyO KeyP BracketLeft BracketRight",
  "KeyA KeyS KeyD KeyF KeyG KeyH KeyJ KeyK KeyL Semicolon Quote Backslash",
  "IntlBackslash KeyZ KeyX KeyC KeyV KeyB KeyN KeyM Comma Period Slash Space",
]
  .join(" ")
  .split(" ");

type Rows = readonly [plain: string, shifted: string];

const LAYOUTS: Readonly<Record<Host, readonly Rows[]>> = {
  US: [
    ["`1234567890-=", "~!@#$%^&*()_+"],
    ["qwertyuiop[]", "QWERTYUIOP{}"],
    ["asdfghjkl;'\\", 'ASDFGHJKL:"|'],
    ["\\zxcvbnm,./ ", "|ZXCVBNM<>? "],
  ],
  UK: [
    ["`1234567890-=", '¬!"£$%^&*()_+'],
    ["qwertyuiop[]", "QWERTYUIOP{}"],
    ["asdfghjkl;'#", "ASDFGHJKL:@~"],
    ["\\zxcvbnm,./ ", "|ZXCVBNM<>? "],
  ],
  FR: [
    ["²&é\"'(-è_çà)=", "²1234567890°+"],
    ["azertyuiop◌$", "AZERTYUIOP◌£"],
    ["qsdfghjklmù*", "QSDFGHJKLM%µ"],
    ["<wxcvbn,;:! ", ">WXCVBN?./§ "],
  ],
  BE: [
    ["²&é\"'(§è!çà)-", "³1234567890°_"],
    ["azertyuiop◌$", "AZERTYUIOP◌*"],
    ["qsdfghjklmùµ", "QSDFGHJKLM%£"],
    ["<wxcvbn,;:= ", ">WXCVBN?./+ "],
  ],
  DE: [
    ["◌1234567890ß◌", '°!"§$%&/()=?◌'],
    ["qwertzuiopü+", "QWERTZUIOPÜ*"],
    ["asdfghjklöä#", "ASDFGHJKLÖÄ'"],
    ["<yxcvbnm,.- ", ">YXCVBNM;:_ "],
  ],
  CH: [
    ["§1234567890'◌", '°+"*ç%&/()=?◌'],
    ["qwertzuiopü◌", "QWERTZUIOPè!"],
    ["asdfghjklöä$", "ASDFGHJKLéà£"],
    ["<yxcvbnm,.- ", ">YXCVBNM;:_ "],
  ],
};

const flat = (host: Host): Rows => [
  LAYOUTS[host].map(([plain]) => plain).join(""),
  LAYOUTS[host].map(([, shifted]) => shifted).join(""),
];
const CHARACTERS = new Map(hosts.map((host) => [host, flat(host)]));
const charactersOf = (host: Host): Rows => CHARACTERS.get(host)!;

/** French and Belgian Caps Lock shifts the row of digits, too. */
const SHIFTING: ReadonlySet<Host> = new Set(["FR", "BE"]);

/** One key as the scanner presses it; `character` where it is written with AltGr or no key at all. */
export type ScannerKey = { code: string; shift: boolean; ctrl: boolean; character?: string };

const CONTROLS: Readonly<Record<string, string>> = {
  "\u001c": "Backslash",
  "\u001d": "BracketRight",
  "\u001e": "Digit6",
  "\u001f": "Minus",
};

function keyOf(character: string, layout: Host): ScannerKey {
  if (character < " ") {
    const letter = String.fromCharCode(character.charCodeAt(0) + 64);
    return { code: CONTROLS[character] ?? `Key${letter}`, shift: false, ctrl: true };
  }
  for (const shift of [false, true]) {
    const index = charactersOf(layout)[shift ? 1 : 0].indexOf(character);
    const code = CODES[index];
    if (index !== -1 && code !== undefined) return { code, shift, ctrl: false };
  }
  return { code: "", shift: false, ctrl: false, character };
}

/** Whether a text is of printable ASCII and the separators of labels: what keys alone can send. */
export const isSentByKeys = (text: string): boolean =>
  /^[ -~]+$/.test(
    text.replaceAll(/[\p{Cc}]/gu, (one) => ("\u0004\u001d\u001e".includes(one) ? "" : one)),
  );

/** The keys that a scanner set to `layout` presses for a text. */
export function keysOfScanner(text: string, layout: Host): ScannerKey[] {
  return Array.from(text, (character) => keyOf(character, layout));
}

/** What the host makes of a key: a character, or `◌` for a dead key. */
export function characterAtHost(key: ScannerKey, host: Host, caps: boolean): string {
  if (key.character !== undefined) return key.character;
  const index = CODES.indexOf(key.code);
  const at = (shift: boolean) => charactersOf(host)[shift ? 1 : 0].charAt(index);
  const isLetter = at(false).toUpperCase() === at(true) && at(false) !== at(true);
  const isDigitKey = SHIFTING.has(host) && key.code.startsWith("Digit");
  return at(caps && (isLetter || isDigitKey) ? !key.shift : key.shift);
}

/** How a scanner and its host are set; what is not given is as it should be. */
export type Simulated = {
  scanner?: Host;
  host?: Host;
  caps?: boolean;
  end?: "\r" | "\t" | "\r\n" | "";
  gapMs?: number;
  separator?: string;
  leading?: boolean;
  prefix?: string;
  suffix?: string;
  identifiers?: boolean;
  /** What the scanner does to the data of a symbol before anything is added. */
  spoil?: (text: string) => string;
};

const ELEMENT_STRING = /^(\](C1|d2|Q3|e0|J1))/;

/** What the scanner sends for a symbol's text, which begins with its symbology identifier. */
export function sentText(text: string, set: Simulated): string {
  const { separator = "\u001d", leading = false, prefix = "", suffix = "" } = set;
  const [identifier = ""] = /^\][A-Za-z]\d/.exec(text) ?? [];
  const data = text.slice(identifier.length);
  const first = leading && ELEMENT_STRING.test(identifier) ? "\u001d" : "";
  const separated = (first + data).replaceAll("\u001d", () => separator);
  const shown = set.identifiers === false ? "" : identifier;
  return prefix + shown + (set.spoil?.(separated) ?? separated) + suffix;
}

/** What arrives of a symbol's text. */
export function observe(text: string, set: Simulated): ScannerObservation {
  const { scanner = "US", host = "US", caps = false, end = "\r", gapMs = 8 } = set;
  const keys = keysOfScanner(sentText(text, set), scanner);
  const reading = (layout: Host, locked: boolean) =>
    keys
      .map((key) => {
        if (!key.ctrl) return characterAtHost(key, layout, locked).replace("◌", "\u{fffd}");
        const letter = /^Key([A-Z])$/.exec(key.code)?.[1];
        const known = Object.entries(CONTROLS).find(([, code]) => code === key.code)?.[0];
        return letter ? String.fromCharCode(letter.charCodeAt(0) - 64) : (known ?? "");
      })
      .join("");
  const typed = reading(host, caps) + end;
  const byPosition = reading("US", false) + end;
  return { typed, byPosition, gapsMs: keys.map(() => gapMs), capsLock: caps };
}
