import { belongs, SET_82 } from "./character-sets.ts";
import { GS } from "./gs1.ts";
import {
  classifyCase,
  fitGs1,
  fitHibc,
  hasBrackets,
  isFullAscii,
  type SymbolFit,
} from "./scanner-fit.ts";
import {
  scannerBounds,
  usualScannerProfile,
  type ScannerBurst,
  type ScannerProfile,
} from "./scanner-profile.ts";

/**
 * One set-up symbol as it arrived: both readings with whatever came at the end (carriage return for
 * Enter, tab for Tab), the gaps between its keys, and whether a letter came in the other case than
 * Shift asked for.
 */
export type ScannerObservation = ScannerBurst & { gapsMs: readonly number[]; capsLock: boolean };

/** Everything that a set-up can find out about a scanner, in the order in which it is told. */
export const scannerFindingKinds = [
  "not-the-symbol",
  "characters-changed",
  "letters-inverted",
  "letters-capital",
  "letters-small",
  "caps-lock",
  "keyboard-layout",
  "brackets-added",
  "separator-lost",
  "separator-ambiguous",
  "separator-substituted",
  "leading-separator",
  "full-ascii",
  "check-character-stripped",
  "last-character-lost",
  "space-changed",
  "identifier-wrong",
  "identifier-sent",
  "identifier-not-sent",
  "additions-vary",
  "prefix-added",
  "suffix-added",
  "end-key-varies",
  "no-end-key",
  "too-slow",
] as const;

/** One of them. */
export type ScannerFindingKind = (typeof scannerFindingKinds)[number];

/** Whether the profile sets a finding right, the scanner must be changed, or it does no harm. */
export type ScannerFix = "set-right-here" | "change-the-scanner" | "nothing-to-do";

/** One finding; `text` is what the scanner sent, `symbol` where it shows, if in one alone. */
export type ScannerFinding = {
  kind: ScannerFindingKind;
  fix: ScannerFix;
  text?: string;
  symbol?: "gs1" | "hibc";
};

/** What came of a set-up: a profile only where every label will be read exactly. */
export type ScannerDiagnosis = { profile: ScannerProfile | null; findings: ScannerFinding[] };

const MAX_ADDED = 20;
const MAX_TOKEN = 8;
const MESSAGE_HEAD = "[)>";
const END = /[\r\n\t]+$/;
const HARMLESS: ReadonlySet<ScannerFindingKind> = new Set([
  "leading-separator",
  "identifier-sent",
  "identifier-not-sent",
]);
const SET_RIGHT: ReadonlySet<ScannerFindingKind> = new Set([
  "caps-lock",
  "keyboard-layout",
  "separator-substituted",
  "prefix-added",
  "suffix-added",
  "no-end-key",
]);
/** Carriers in which the HIBC symbol arrives whole. */
const HIBC_IDENTIFIERS = /^(\](d1|C0|A[0-2]))?$/;
const STRIPPED = /^\]A[37]$/;
const FULL_ASCII = /^\]A[4-7]$/;

type Keyboard = ScannerProfile["keyboard"];
type Told = { text?: string | undefined; symbol?: "gs1" | "hibc" };
/** Notes a finding; its kind alone decides what is to be done about it. */
type Note = (kind: ScannerFindingKind, told?: Told) => void;

/** The two symbols in one reading, without what ends them. */
type Pair = { gs1: string; hibc: string };
type Fits = { gs1: SymbolFit | undefined; hibc: SymbolFit | undefined };

/**
 * Answers what the scanner that sent the two set-up symbols does to labels, and the profile that
 * sets it right. There is no profile where labels could not be told apart any more: a lost
 * separator, a check character taken off, letters whose case is gone, characters changed in a way
 * that no reading undoes. Then the findings marked `change-the-scanner` say what to change on the
 * scanner. With a profile, `applyScannerProfile` and `readLabel` with its `gsTokens` read every
 * label as it was encoded, save one whose own data contains the text sent for the separator.
 * Source: project rules, from observed scanners.
 */
export function diagnoseScanner(observed: {
  gs1: ScannerObservation;
  hibc: ScannerObservation;
}): ScannerDiagnosis {
  const findings: ScannerFinding[] = [];
  const note: Note = (kind, { text, symbol } = {}) => {
    const fix = fixOf(kind);
    const told = { ...(text === undefined ? {} : { text }), ...(symbol ? { symbol } : {}) };
    findings.push({ kind, fix, ...told });
  };
  const keyboard = chooseKeyboard(observed, note);
  const endKey = judgeEnd(observed, note);
  const maxGapMs = judgeGaps(observed, note);
  const fits = fitsOf(pairOf(observed, keyboard ?? "as-typed"));
  const gsTokens = judgeSeparator(fits.gs1, endKey, note);
  const { prefix, suffix } = judgeAdditions(fits, note);
  const order = ({ kind }: ScannerFinding): number => scannerFindingKinds.indexOf(kind);
  findings.sort((a, b) => order(a) - order(b));
  const refused = findings.some(({ fix }) => fix === "change-the-scanner");
  if (keyboard === undefined || refused) return { profile: null, findings };
  const { minKeys } = usualScannerProfile;
  return { profile: { gsTokens, prefix, suffix, keyboard, endKey, maxGapMs, minKeys }, findings };
}

/**
 * Answers which set-up symbol a burst is likely to be, whatever the scanner has made of it: by what
 * it contains, otherwise by its length. Undefined where it is neither.
 */
export function recogniseSetUpSymbol(observed: ScannerBurst): "gs1" | "hibc" | undefined {
  const texts = [observed.typed, observed.byPosition].map((text) => text.replace(END, ""));
  if (texts.some((text) => /0109506000134352|\(01\)09506000134352/.test(text))) return "gs1";
  if (texts.some((text) => /999zq8wym7/i.test(text))) return "hibc";
  const { length } = texts[0] ?? "";
  if (length >= 50 && length <= 90) return "gs1";
  return length >= 18 && length <= 36 ? "hibc" : undefined;
}

function fixOf(kind: ScannerFindingKind): ScannerFix {
  if (HARMLESS.has(kind)) return "nothing-to-do";
  return SET_RIGHT.has(kind) ? "set-right-here" : "change-the-scanner";
}

function pairOf(observed: Record<keyof Pair, ScannerObservation>, keyboard: Keyboard): Pair {
  const textOf = ({ typed, byPosition }: ScannerObservation) =>
    (keyboard === "as-typed" ? typed : byPosition).replace(END, "");
  return { gs1: textOf(observed.gs1), hibc: textOf(observed.hibc) };
}

const fitsOf = ({ gs1, hibc }: Pair): Fits => ({ gs1: fitGs1(gs1), hibc: fitHibc(hibc) });

/**
 * The reading in which both symbols are what they should be; what was typed comes first. Where the
 * GS1 symbol fits, what is wrong with the HIBC symbol is told apart.
 */
function chooseKeyboard(
  observed: Record<keyof Pair, ScannerObservation>,
  note: Note,
): Keyboard | undefined {
  const typed = pairOf(observed, "as-typed");
  const [asTyped, byPosition] = [fitsOf(typed), fitsOf(pairOf(observed, "by-position"))];
  const isWhole = ({ gs1, hibc }: Fits) => gs1 !== undefined && hibc !== undefined;
  if (isWhole(asTyped)) return "as-typed";
  if (isWhole(byPosition)) {
    const isCase = classifyCase(typed.gs1, "gs1") === "letters-inverted";
    if (isCase || observed.gs1.capsLock || observed.hibc.capsLock) note("caps-lock");
    if (!isCase) note("keyboard-layout");
    return "by-position";
  }
  const keyboard = asTyped.gs1 || asTyped.hibc ? "as-typed" : "by-position";
  const pair = pairOf(observed, keyboard);
  const fits = keyboard === "as-typed" ? asTyped : byPosition;
  const gs1Case = fits.gs1 ? undefined : classifyCase(pair.gs1, "gs1");
  if (!fits.gs1) note(misfitOf(observed.gs1, pair.gs1, "gs1"), { symbol: "gs1", text: pair.gs1 });
  // HIBC has no small letters, so that it cannot tell how the case was changed.
  const isSaid = gs1Case !== undefined && classifyCase(pair.hibc, "hibc") !== undefined;
  if (!fits.hibc && !isSaid) {
    note(misfitOf(observed.hibc, pair.hibc, "hibc"), { symbol: "hibc", text: pair.hibc });
  }
  return fits.gs1 || fits.hibc ? keyboard : undefined;
}

/** What happened to a symbol that is not what it should be. */
function misfitOf(
  observed: ScannerObservation,
  text: string,
  symbol: "gs1" | "hibc",
): ScannerFindingKind {
  if (recogniseSetUpSymbol(observed) !== symbol) return "not-the-symbol";
  if (symbol === "gs1" && hasBrackets(text)) return "brackets-added";
  if (symbol === "hibc" && isFullAscii(text)) return "full-ascii";
  return classifyCase(text, symbol) ?? "characters-changed";
}

function judgeEnd(
  { gs1, hibc }: Record<keyof Pair, ScannerObservation>,
  note: Note,
): ScannerProfile["endKey"] {
  const endOf = ({ typed }: ScannerObservation) => {
    const [end = ""] = END.exec(typed) ?? [];
    if (end === "") return "none";
    return end.startsWith("\t") ? "Tab" : "Enter";
  };
  const end = endOf(gs1);
  if (end !== endOf(hibc)) note("end-key-varies");
  else if (end === "none") note("no-end-key");
  return end;
}

/** Half as long again as the longest gap seen, in steps of five. */
function judgeGaps({ gs1, hibc }: Record<keyof Pair, ScannerObservation>, note: Note): number {
  const longest = Math.max(0, ...gs1.gapsMs, ...hibc.gapsMs);
  const { max } = scannerBounds.maxGapMs;
  if (longest > max) note("too-slow", { text: `${longest}` });
  const ample = Math.ceil((longest * 1.5) / 5) * 5;
  return Math.min(max, Math.max(usualScannerProfile.maxGapMs, ample));
}

function judgeSeparator(
  fit: SymbolFit | undefined,
  endKey: ScannerProfile["endKey"],
  note: Note,
): string[] {
  if (fit === undefined) return [];
  const { separator: text, leading } = fit;
  if (text === "") note("separator-lost");
  if (leading) note("leading-separator");
  if (text === "" || text === GS) return [];
  note(isAmbiguous(text, endKey) ? "separator-ambiguous" : "separator-substituted", { text });
  return [text];
}

/**
 * Whether a substitute may be data of a label, or ends the burst. One that begins with a character
 * of data might be found too early, at the end of a value; one that begins with a bracket looks
 * like a symbology identifier in front of a label, or like the head of an ISO/IEC 15434 message.
 */
function isAmbiguous(text: string, endKey: ScannerProfile["endKey"]): boolean {
  if (text.length > MAX_TOKEN) return true;
  if (endKey === "Tab" && text.includes("\t")) return true;
  if (endKey === "Enter" && /[\r\n]/.test(text)) return true;
  if (text.startsWith("]") || MESSAGE_HEAD.startsWith(text)) return true;
  return belongs(text, 0, SET_82) && !/^<[A-Za-z0-9]{2,6}>$/.test(text);
}

function judgeAdditions(
  { gs1, hibc }: Fits,
  note: Note,
): Pick<ScannerProfile, "prefix" | "suffix"> {
  if (gs1 !== undefined) judgeIdentifier(gs1.identifier, note);
  if (hibc !== undefined) judgeHibcEnd(hibc, gs1?.after ?? "", note);
  const prefix = gs1?.prefix ?? hibc?.prefix ?? "";
  const suffix = gs1?.after ?? "";
  const varies = gs1 !== undefined && hibc !== undefined && gs1.prefix !== hibc.prefix;
  if (varies || prefix.length > MAX_ADDED || suffix.length > MAX_ADDED) {
    note("additions-vary", { text: hibc?.prefix ?? prefix });
  }
  if (prefix !== "" && !varies) note("prefix-added", { text: prefix });
  if (suffix !== "") note("suffix-added", { text: suffix });
  return { prefix, suffix };
}

function judgeIdentifier(identifier: string, note: Note): void {
  if (identifier === "") note("identifier-not-sent");
  else if (identifier === "]d2") note("identifier-sent", { text: identifier });
  else note("identifier-wrong", { text: identifier, symbol: "gs1" });
}

/** What came after the HIBC data: the check character, which is a space, and the suffix. */
function judgeHibcEnd({ identifier, after }: SymbolFit, suffix: string, note: Note): void {
  const symbol = "hibc";
  if (FULL_ASCII.test(identifier)) note("full-ascii", { symbol });
  else if (!HIBC_IDENTIFIERS.test(identifier) && !STRIPPED.test(identifier)) {
    note("identifier-wrong", { text: identifier, symbol });
  }
  if (after === ` ${suffix}`) return;
  if (STRIPPED.test(identifier)) return note("check-character-stripped", { symbol });
  if (after === suffix) return note("last-character-lost", { symbol });
  const isChanged = after.length === suffix.length + 1 && after.endsWith(suffix);
  return note(isChanged ? "space-changed" : "additions-vary", { text: after, symbol });
}
