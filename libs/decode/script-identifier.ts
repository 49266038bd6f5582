import type { SymbolFormat } from "./reader.ts";

const separator = "\u001d";

/**
 * The text of a symbol with its symbology identifier (ISO/IEC 15424), from what @zxing/library
 * gives: its text and the symbol's codewords. That library tells no identifier, but the codewords
 * prove whether FNC1 stands in first position, and only then is the data a GS1 element string.
 * Undefined where the codewords prove nothing or hold what the library is known to garble: an
 * extended channel, FNC1 elsewhere than first in a QR code, text beyond ASCII.
 */
export function readIdentified(
  format: SymbolFormat,
  text: string,
  codewords: Uint8Array | null,
): string | undefined {
  // Mojibake, characters of an unread extended channel, and what no label carries.
  if (text === "" || !Array.from(text).every(isExpected)) return undefined;
  if (format === "EAN13") return /^\d{13}$/.test(text) ? `]E0${text}` : undefined;
  if (format === "Code39") return `${hasCheckCharacter(text) ? "]A1" : "]A0"}${text}`;
  if (codewords === null || codewords.length < 2) return undefined;
  if (format === "Code128") return identifyCode128(text, codewords);
  if (format === "DataMatrix") return identifyDataMatrix(text, codewords);
  return identifyQrCode(text, codewords);
}

const controls = [separator, "\u001e", "\u0004"];
const isExpected = (each: string): boolean =>
  (each >= " " && each <= "~") || controls.includes(each);

const code39Values = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%";

function hasCheckCharacter(text: string): boolean {
  const values = Array.from(text, (each) => code39Values.indexOf(each));
  const check = values.pop();
  return values.reduce((sum, value) => sum + value, 0) % code39Values.length === check;
}

const code128Fnc1 = 102;

/** Codewords are the start character and then the data; the library writes `]C1` for FNC1. */
function identifyCode128(text: string, codewords: Uint8Array): string | undefined {
  const isGs1 = codewords[1] === code128Fnc1;
  if (isGs1) return text.startsWith("]C1") && text.length > 3 ? text : undefined;
  // FNC1 in second position, or first after a change of code set.
  return text.startsWith("]C1") || codewords[2] === code128Fnc1 ? undefined : `]C0${text}`;
}

const inDataMatrix = { fnc1: 232, append: 233, programming: 234, channel: 241, pad: 129 };
const latches = { c40: 230, base256: 231, x12: 238, text: 239, edifact: 240, back: 254 };

function identifyDataMatrix(text: string, codewords: Uint8Array): string | undefined {
  const [first, second] = codewords;
  if (first === inDataMatrix.append || first === inDataMatrix.programming) return undefined;
  if (mayChangeChannel(codewords)) return undefined;
  if (first === inDataMatrix.fnc1) {
    return text.startsWith(separator) && text.length > 1 ? `]d2${text.slice(1)}` : undefined;
  }
  // FNC1 in second position means an industry's own format.
  return second === inDataMatrix.fnc1 ? undefined : `]d1${text}`;
}

/** The library reads the number of an extended channel as a character of the text. */
function mayChangeChannel(codewords: Uint8Array): boolean {
  const end = codewords.length;
  for (let at = 0; at < end; at += 1) {
    const codeword = codewords[at]!;
    if (codeword === inDataMatrix.channel) return true;
    if (codeword === inDataMatrix.pad) return false;
    // Where these two end would take reading them.
    if (codeword === latches.base256 || codeword === latches.edifact) {
      return codewords.subarray(at).includes(inDataMatrix.channel);
    }
    if (codeword === latches.c40 || codeword === latches.x12 || codeword === latches.text) {
      do at += codewords[at + 1] === latches.back ? 1 : 2;
      while (at < end && codewords[at] !== latches.back);
    }
  }
  return false;
}

const qrModes = { numeric: 1, alphanumeric: 2, bytes: 4, fnc1First: 5 };

/** Codewords begin with four bits that tell the mode. */
function identifyQrCode(text: string, codewords: Uint8Array): string | undefined {
  const mode = codewords[0]! >> 4;
  if (mode === qrModes.fnc1First) return `]Q3${text}`;
  const isPlain =
    mode === qrModes.numeric || mode === qrModes.alphanumeric || mode === qrModes.bytes;
  // A separator here would come from an FNC1 further on.
  return isPlain && !text.includes(separator) ? `]Q1${text}` : undefined;
}
