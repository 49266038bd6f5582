import { describe, expect, test } from "@jest/globals";
import starters from "../../../../shared/starter-techniques.json" with { type: "json" };
import { fillStep, type KeptStep } from "#domain";
import {
  draftOf,
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
