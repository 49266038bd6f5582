import type { Because, Finding, ToothDescription, Verdict } from "#domain";
import type { ScannerFault } from "#labels";
import { fill, type Values } from "./fill.ts";
import { getMessages, type Language } from "./format.ts";

/** A finding in words: title for two metres, the sentence with its numbers, what to do now. */
export interface SaidFinding {
  title: string;
  sentence: string;
  remedy: string;
}

// A code may come from anywhere, so what every object inherits is no text.
function findText(texts: Readonly<Record<string, string>>, key: string): string | undefined {
  return Object.hasOwn(texts, key) ? texts[key] : undefined;
}

function pickSentence(
  sentence: string | Readonly<Record<string, string>>,
  reason: string | number | undefined,
): string {
  return typeof sentence === "string" ? sentence : (findText(sentence, String(reason)) ?? "");
}

/** What to do now; where the remedy names a better container, to take that one comes last. */
function sayRemedy(language: Language, { code, numbers }: Finding["remedy"]): string {
  const { remedies } = getMessages(language);
  const said = fill(language, remedies[code], numbers);
  if (code === "take-instead" || numbers.insteadCode === undefined) return said;
  return `${said} ${fill(language, remedies["take-instead"], numbers)}`;
}

/**
 * A finding in the words of a language. `finding` needs only its code, subject name, numbers and
 * remedy, so that one that came over the network does, too.
 */
export function sayFinding(
  language: Language,
  finding: Pick<Finding, "code" | "numbers" | "remedy"> & { subject: { name: string } },
): SaidFinding {
  const { title, sentence } = getMessages(language).findings[finding.code];
  const values = { ...finding.numbers, name: finding.subject.name };
  return {
    title,
    sentence: fill(language, pickSentence(sentence, finding.numbers.reason), values),
    remedy: sayRemedy(language, finding.remedy),
  };
}

/** One number that a finding compared, and where it came from, such as `use-by date … (label)`. */
export function sayBecause(language: Language, because: Because): string {
  const messages = getMessages(language);
  const text = findText(messages.because, because.what) ?? "{value}";
  const said = fill(language, text, { value: because.value });
  return `${said} (${messages.sources[because.from]})`;
}

/** The one word of a verdict. */
export function sayVerdict(language: Language, verdict: Verdict): string {
  return getMessages(language).verdicts[verdict];
}

/**
 * A problem in a sentence that says what happened and what to do. `numbers` are the problem's own
 * extras; a part of the sentence that needs one not given falls away. A code that is not known, as
 * from a newer server, is said as an internal error.
 */
export function sayProblem(language: Language, code: string, numbers: Values = {}): string {
  const { problems } = getMessages(language);
  return fill(language, findText(problems, code) ?? problems["internal-error"], numbers);
}

/**
 * Why a label could not be read and what to do, for a person with a scanner in the hand. `kind` is
 * the error kind of the label reader; one that is not known is said as an unreadable label. `fault`
 * is what `scannerFaultOf` makes of the error: then it is said what the scanner did.
 */
export function sayLabelProblem(language: Language, kind: string, fault?: ScannerFault): string {
  if (fault !== undefined) return sayScannerFault(language, fault);
  const text = findText(getMessages(language).labelProblems, kind);
  return text ?? sayProblem(language, "label-unreadable");
}

/** What the scanner did wrong and what to do, also where the label was read all the same. */
export function sayScannerFault(language: Language, fault: ScannerFault): string {
  return getMessages(language).scannerFaults[fault];
}

/** The name of a tooth, such as `lower left first molar`; sides are the patient's own. */
export function sayTooth(
  language: Language,
  tooth: Omit<ToothDescription, "fdi" | "position">,
): string {
  const { toothName, toothPlaces, toothClasses, toothBeside } = getMessages(language);
  const name = fill(language, toothName[tooth.dentition], {
    place: toothPlaces[`${tooth.arch}-${tooth.side}`],
    tooth: toothClasses[tooth.class],
  });
  return tooth.supernumerary ? fill(language, toothBeside, { tooth: name }) : name;
}
