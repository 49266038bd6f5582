import type { TechniqueStep } from "./facts.ts";

/** What is wrong with a technique: where, as a path into it, and why. */
export interface TechniqueFault {
  /** Such as `/steps/2/thicknessTenthMm`. */
  path: string;
  fault:
    | "no-steps"
    | "key-twice"
    | "solvent-not-allowed"
    | "etches-without-etchant"
    | "no-mode"
    | "range-turned"
    | "coat-without-resin";
}

const coatKinds: readonly string[] = ["flowable", "composite"];

function readStepFaults(step: TechniqueStep): readonly [string, TechniqueFault["fault"]][] {
  const faults: [string, TechniqueFault["fault"]][] = [];
  const { solventNeeded, solventsAllowed, thicknessTenthMm: range, when } = step;
  if (solventNeeded !== null && solventsAllowed?.includes(solventNeeded) === false) {
    faults.push(["solventNeeded", "solvent-not-allowed"]);
  }
  if (step.etchesDentin && !step.accepts.includes("etchant")) {
    faults.push(["etchesDentin", "etches-without-etchant"]);
  }
  if (when !== null && when.modes?.length === 0) faults.push(["when/modes", "no-mode"]);
  if (range !== null && range.min > range.max) faults.push(["thicknessTenthMm", "range-turned"]);
  const asksOfCoat = step.minFillerPercent !== null || step.minModulusGpa !== null;
  if (asksOfCoat && !step.accepts.some((kind) => coatKinds.includes(kind))) {
    faults.push(["minFillerPercent", "coat-without-resin"]);
  }
  return faults;
}

/**
 * What contradicts itself in the steps of a technique, in their order; empty where nothing does.
 * That each value is in its range is for whoever reads the form. Own rules, no source; an acid
 * etches dentin only where one is applied.
 */
export function readTechniqueFaults(steps: readonly TechniqueStep[]): readonly TechniqueFault[] {
  if (steps.length === 0) return [{ path: "/steps", fault: "no-steps" }];
  return steps.flatMap((step, index) => {
    const twice = steps.findIndex(({ key }) => key === step.key) < index;
    const own = readStepFaults(step);
    return [...(twice ? [["key", "key-twice"] as const] : []), ...own].map(([field, fault]) => ({
      path: `/steps/${index}/${field}`,
      fault,
    }));
  });
}
