import type { ProductKind, ProvisionalKind, Solvent, ToothMode } from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";

export type Technique = AnswerOf<"getTechnique">;
type Step = Technique["steps"][number];
export type StepInput = BodyOf<"addTechnique">["steps"][number];

/** A step as it is edited: its numbers as they are typed. */
export interface StepDraft {
  key: string;
  name: string;
  accepts: readonly ProductKind[];
  required: boolean;
  etchesDentin: boolean;
  solventNeeded: Solvent | "";
  solventsAllowed: readonly Solvent[];
  applicationSeconds: string;
  airDrySeconds: string;
  cureSeconds: string;
  lightDistance: string;
  minThickness: string;
  maxThickness: string;
  minFiller: string;
  minModulus: string;
  modes: readonly ToothMode[];
  provisional: ProvisionalKind | "";
  undercut: "any" | "yes" | "no";
}

const textOf = (value: number | null, per = 1): string =>
  value === null ? "" : String(value / per);

/** The draft of a step as it is kept. */
export function draftOf(step: Step): StepDraft {
  const { when, thicknessTenthMm: range } = step;
  const undercut = when?.undercut ?? null;
  return {
    key: step.key,
    name: step.name,
    accepts: step.accepts,
    required: step.required,
    etchesDentin: step.etchesDentin,
    solventNeeded: step.solventNeeded ?? "",
    solventsAllowed: step.solventsAllowed ?? [],
    applicationSeconds: textOf(step.applicationSeconds),
    airDrySeconds: textOf(step.airDrySeconds),
    cureSeconds: textOf(step.cureSeconds),
    lightDistance: textOf(step.lightDistanceTenthMm, 10),
    minThickness: textOf(range?.min ?? null, 10),
    maxThickness: textOf(range?.max ?? null, 10),
    minFiller: textOf(step.minFillerPercent),
    minModulus: textOf(step.minModulusGpa),
    modes: when?.modes ?? [],
    provisional: when?.provisional ?? "",
    undercut: undercut === null ? "any" : undercut ? "yes" : "no",
  };
}

/** A step that nothing is said of yet, with a key that no other has. */
export function newStep(steps: readonly StepDraft[], name: string): StepDraft {
  const keys = new Set(steps.map(({ key }) => key));
  let number = steps.length + 1;
  while (keys.has(`step-${number}`)) number += 1;
  return { ...emptyStep, key: `step-${number}`, name };
}
const emptyStep: StepDraft = {
  key: "",
  name: "",
  accepts: [],
  required: true,
  etchesDentin: false,
  solventNeeded: "",
  solventsAllowed: [],
  applicationSeconds: "",
  airDrySeconds: "",
  cureSeconds: "",
  lightDistance: "",
  minThickness: "",
  maxThickness: "",
  minFiller: "",
  minModulus: "",
  modes: [],
  provisional: "",
  undercut: "any",
};

/** The steps with one of them moved to another place. */
export function moveStep(
  steps: readonly StepDraft[],
  from: number,
  to: number,
): readonly StepDraft[] {
  const moved = steps[from];
  if (moved === undefined || to < 0 || to >= steps.length) return steps;
  const rest = steps.filter((_, index) => index !== from);
  return [...rest.slice(0, to), moved, ...rest.slice(to)];
}

export type NumberField =
  | "applicationSeconds"
  | "airDrySeconds"
  | "cureSeconds"
  | "lightDistance"
  | "minThickness"
  | "maxThickness"
  | "minFiller"
  | "minModulus";

/** For each number: how many decimals it may have, its bounds, and by how much it is kept. */
const numbers: Record<NumberField, { decimals: number; min: number; max: number; times: number }> =
  {
    applicationSeconds: { decimals: 0, min: 0, max: 3600, times: 1 },
    airDrySeconds: { decimals: 0, min: 0, max: 3600, times: 1 },
    cureSeconds: { decimals: 0, min: 0, max: 3600, times: 1 },
    lightDistance: { decimals: 1, min: 0, max: 30, times: 10 },
    minThickness: { decimals: 1, min: 0, max: 10, times: 10 },
    maxThickness: { decimals: 1, min: 0, max: 10, times: 10 },
    minFiller: { decimals: 1, min: 0, max: 100, times: 1 },
    minModulus: { decimals: 1, min: 0.1, max: 1000, times: 1 },
  };
const numberFields = Object.keys(numbers) as NumberField[];

/** What a number field says: `null` where it is empty, `undefined` where it is no such number. */
export function readNumber(field: NumberField, text: string): number | null | undefined {
  const trimmed = text.trim().replace(",", ".");
  if (trimmed === "") return null;
  const { decimals, min, max, times } = numbers[field];
  const form = decimals === 0 ? /^\d{1,4}$/ : /^\d{1,4}(\.\d)?$/;
  const value = Number(trimmed);
  if (!form.test(trimmed) || value < min || value > max) return undefined;
  return times === 1 ? value : Math.round(value * times);
}

/** The number fields of a step that say no number. */
export const listWrong = (step: StepDraft): readonly NumberField[] =>
  numberFields.filter((field) => readNumber(field, step[field]) === undefined);

/** The step as it is sent; what is wrong in it is to be found before. */
export function readStep(draft: StepDraft): StepInput {
  const valueOf = (field: NumberField): number | null => readNumber(field, draft[field]) ?? null;
  const [min, max] = [valueOf("minThickness"), valueOf("maxThickness")];
  const when = {
    modes: draft.modes.length === 0 ? null : [...draft.modes],
    provisional: draft.provisional === "" ? null : draft.provisional,
    undercut: draft.undercut === "any" ? null : draft.undercut === "yes",
  };
  const isEvery = when.modes === null && when.provisional === null && when.undercut === null;
  return {
    key: draft.key,
    name: draft.name.trim(),
    accepts: [...draft.accepts],
    required: draft.required,
    etchesDentin: draft.etchesDentin,
    solventNeeded: draft.solventNeeded === "" ? null : draft.solventNeeded,
    solventsAllowed: draft.solventsAllowed.length === 0 ? null : [...draft.solventsAllowed],
    applicationSeconds: valueOf("applicationSeconds"),
    airDrySeconds: valueOf("airDrySeconds"),
    cureSeconds: valueOf("cureSeconds"),
    lightDistanceTenthMm: valueOf("lightDistance"),
    thicknessTenthMm: min === null && max === null ? null : { min: min ?? 0, max: max ?? 100 },
    minFillerPercent: valueOf("minFiller"),
    minModulusGpa: valueOf("minModulus"),
    when: isEvery ? null : when,
  };
}

/** The part of a step at which a fault is shown; `step` where no field has it. */
export type FaultyPart =
  | NumberField
  | "name"
  | "accepts"
  | "etchesDentin"
  | "solventNeeded"
  | "solventsAllowed"
  | "modes"
  | "step";

/** By the path of a step's fault, in the request; a path goes with what it begins with. */
const faultyParts: readonly (readonly [path: string, part: FaultyPart])[] = [
  ["name", "name"],
  ["accepts", "accepts"],
  ["etchesDentin", "etchesDentin"],
  ["solventNeeded", "solventNeeded"],
  ["solventsAllowed", "solventsAllowed"],
  ["applicationSeconds", "applicationSeconds"],
  ["airDrySeconds", "airDrySeconds"],
  ["cureSeconds", "cureSeconds"],
  ["lightDistanceTenthMm", "lightDistance"],
  ["thicknessTenthMm/max", "maxThickness"],
  ["thicknessTenthMm", "minThickness"],
  ["minFillerPercent", "minFiller"],
  ["minModulusGpa", "minModulus"],
  ["when/modes", "modes"],
  ["", "step"],
];

/** What the server found wrong in one step of those sent, by the part at which it is shown. */
export function listFaults(
  errors: readonly { path: string; message: string }[],
  index: number,
): ReadonlyMap<FaultyPart, string> {
  const start = `/body/steps/${index}`;
  const faults = new Map<FaultyPart, string>();
  for (const { path, message } of errors) {
    if (path !== start && !path.startsWith(`${start}/`)) continue;
    const rest = path.slice(start.length + 1);
    const [, part] = faultyParts.find(([begins]) => rest.startsWith(begins))!;
    if (!faults.has(part)) faults.set(part, message);
  }
  return faults;
}
