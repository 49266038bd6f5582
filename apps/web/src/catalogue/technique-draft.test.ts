import { describe, expect, test } from "@jest/globals";
import starters from "../../../../shared/starter-techniques.json" with { type: "json" };
import { fillStep, readTechniqueFaults, type KeptStep, type TechniqueStep } from "#domain";
import {
  draftOf,
  listFaults,
  listWrong,
  moveStep,
  newStep,
  readNumber,
  readStep,
  type Technique,
} from "./technique-draft.ts";

const kept = starters.techniques.flatMap(({ steps }) =>
  steps.map(({ name, ...step }) => fillStep({ ...step, name: name.en } as KeptStep)),
);

describe("a step that is edited", () => {
  test("comes back as it was where nothing is changed, for every step that is shipped", () => {
    for (const step of kept) {
      const draft = draftOf(step as unknown as Technique["steps"][number]);
      expect(listWrong(draft)).toEqual([]);
      expect(readStep(draft)).toEqual(step);
    }
  });

  test("is moved, and stays where there is no such place", () => {
    const [a, b] = [newStep([], "a"), { ...newStep([], "b"), key: "b" }];
    expect(moveStep([a, b], 1, 0)).toEqual([b, a]);
    expect(moveStep([a, b], 0, -1)).toEqual([a, b]);
    expect(moveStep([a, b], 0, 2)).toEqual([a, b]);
  });

  test("has a key of its own when it is new", () => {
    const first = newStep([], "a");
    const taken = { ...first, key: "step-2" };
    expect(newStep([first, taken], "b").key).toBe("step-3");
    expect(newStep([taken], "b").key).toBe("step-3");
  });
});

test.each([
  ["cureSeconds", "20", 20],
  ["cureSeconds", "20.5", undefined],
  ["cureSeconds", "3601", undefined],
  ["cureSeconds", "", null],
  ["lightDistance", "2,5", 25],
  ["lightDistance", "31", undefined],
  ["minModulus", "0", undefined],
  ["minFiller", "62.5", 62.5],
  ["minFiller", "much", undefined],
] as const)("%s of %j is %j", (field, text, value) => expect(readNumber(field, text)).toBe(value));

describe("what the server finds wrong", () => {
  const at = (path: string, message = path) => ({ path: `/body/steps/${path}`, message });

  test("is shown at its field of its step, the first of several", () => {
    const errors = [
      at("1/key", "key-twice"),
      at("1/thicknessTenthMm", "range-turned"),
      at("1/thicknessTenthMm/max"),
      at("1/when/modes", "no-mode"),
      at("1/accepts/0"),
      at("1/accepts/1"),
      at("11/name"),
      { path: "/body/name", message: "elsewhere" },
    ];
    expect([...listFaults(errors, 1)]).toEqual([
      ["step", "key-twice"],
      ["minThickness", "range-turned"],
      ["maxThickness", "1/thicknessTenthMm/max"],
      ["modes", "no-mode"],
      ["accepts", "1/accepts/0"],
    ]);
    expect([...listFaults(errors, 11)]).toEqual([["name", "11/name"]]);
    expect(listFaults(errors, 0).size).toBe(0);
  });

  test("has a field for every fault that the rules of a technique know but a key", () => {
    const step = { ...kept[0]!, key: "a", when: null };
    const faulty: TechniqueStep[] = [
      { ...step, solventNeeded: "water", solventsAllowed: ["ethanol"] },
      { ...step, key: "b", etchesDentin: true, accepts: [] },
      { ...step, key: "c", when: { modes: [], provisional: null, undercut: null } },
      { ...step, key: "d", thicknessTenthMm: { min: 8, max: 3 } },
      { ...step, key: "e", accepts: [], minModulusGpa: 5 },
    ];
    const errors = readTechniqueFaults(faulty).map(({ path, fault }) => ({
      path: `/body${path}`,
      message: fault,
    }));
    expect(faulty.map((_, index) => [...listFaults(errors, index)])).toEqual([
      [["solventNeeded", "solvent-not-allowed"]],
      [["etchesDentin", "etches-without-etchant"]],
      [["modes", "no-mode"]],
      [["minThickness", "range-turned"]],
      [["minFiller", "coat-without-resin"]],
    ]);
  });
});
