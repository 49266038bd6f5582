/**
 * The characters of a United States keyboard by the place of the key, plain and with Shift: what a
 * scanner that is set to that layout means, whatever the host makes of it. From memory; the names
 * of the places are those of W3C UI Events KeyboardEvent code values.
 */
const rows: readonly (readonly [codes: string, plain: string, shifted: string])[] = [
  ["Backquote Minus Equal", "`-=", "~_+"],
  ["BracketLeft BracketRight Backslash", "[]\\", "{}|"],
  ["Semicolon Quote Comma Period Slash", ";',./", ':"<>?'],
  ["IntlBackslash Space", "\\ ", "| "],
];

const keypad: readonly (readonly [code: string, character: string])[] = [
  ["NumpadAdd", "+"],
  ["NumpadSubtract", "-"],
  ["NumpadMultiply", "*"],
  ["NumpadDivide", "/"],
  ["NumpadDecimal", "."],
];

const shiftedDigits = ")!@#$%^&*(";

function listKeys(): [string, readonly [plain: string, shifted: string]][] {
  const letters = Array.from("ABCDEFGHIJKLMNOPQRSTUVWXYZ", (letter) => [
    `Key${letter}`,
    [letter.toLowerCase(), letter] as const,
  ]);
  const digits = Array.from(shiftedDigits, (shifted, digit) => [
    `Digit${digit}`,
    [`${digit}`, shifted] as const,
  ]);
  const keypadDigits = Array.from({ length: 10 }, (_, digit) => [
    `Numpad${digit}`,
    [`${digit}`, `${digit}`] as const,
  ]);
  const marks = rows.flatMap(([codes, plain, shifted]) =>
    codes
      .split(" ")
      .map((code, index) => [code, [plain.charAt(index), shifted.charAt(index)] as const]),
  );
  const keypadMarks = keypad.map(([code, mark]) => [code, [mark, mark] as const]);
  return [...letters, ...digits, ...keypadDigits, ...marks, ...keypadMarks] as [
    string,
    readonly [string, string],
  ][];
}

/** Plain and shifted character of every key that types one. */
export const usLayout: ReadonlyMap<string, readonly [plain: string, shifted: string]> = new Map(
  listKeys(),
);
