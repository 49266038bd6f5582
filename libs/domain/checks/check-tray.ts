import { makeCheckContext } from "../check-context.ts";
import type { Finding, TechniqueStep, TrayFacts } from "../facts.ts";
import { findingLevels, type FindingLevel, type Verdict } from "../vocabulary.ts";
import { allChecks } from "./all-checks.ts";
import type { Check } from "./check.ts";

/** The answer of the check before priming. */
export interface TrayCheck {
  verdict: Verdict;
  /** Worst first, then in the order of the technique's steps, then by code and subject. */
  findings: readonly Finding[];
}

// Only a caution can be raised, so whatever the settings say, no stop is ever weakened.
function computeLevel(
  { code }: Check,
  level: FindingLevel,
  raised: TrayFacts["settings"]["raised"],
): FindingLevel {
  return level === "caution" && raised.includes(code) ? "stop" : level;
}

function compareTexts(first: string, second: string): number {
  return first < second ? -1 : Number(first > second);
}

function makeComparer(steps: readonly TechniqueStep[]): (a: Finding, b: Finding) => number {
  const places = new Map(steps.map((step, index) => [step.key, index]));
  // What belongs to no step comes after the last step.
  const place = ({ subject }: Finding): number => places.get(subject.stepKey ?? "") ?? steps.length;
  return (a, b) =>
    findingLevels.indexOf(a.level) - findingLevels.indexOf(b.level) ||
    place(a) - place(b) ||
    compareTexts(a.code, b.code) ||
    compareTexts(a.subject.name, b.subject.name) ||
    compareTexts(a.subject.itemId ?? "", b.subject.itemId ?? "");
}

function computeVerdict(findings: readonly Finding[]): Verdict {
  const worst = findings[0]?.level;
  return worst === "stop" || worst === "caution" ? worst : "clear";
}

/**
 * Checks a tray before priming: whether everything on it is in date, here, the right chemistry and
 * belongs together. Pure and deterministic: `facts` holds all there is to know, `at` is the instant
 * of the check (ISO 8601), and neither the order of scanning nor of reading the shelf matters. The
 * verdict is the worst finding: any stop, else any caution, else clear; notes of level `info` leave
 * it clear. Cautions that the practice has raised are stops. Throws a RangeError where an instant
 * or a date cannot be read or the time zone does not exist. Own rules; each check names its source.
 */
export function checkTray(facts: TrayFacts, at: string): TrayCheck {
  const context = makeCheckContext(facts, at);
  const findings: Finding[] = [];
  for (const check of allChecks) {
    for (const { level: own = check.level, ...draft } of check.run(context)) {
      const level = computeLevel(check, own, facts.settings.raised);
      findings.push({ code: check.code, level, ...draft });
    }
  }
  findings.sort(makeComparer(facts.technique.steps));
  return { verdict: computeVerdict(findings), findings };
}
