import { describe, expect, test } from "@jest/globals";
import {
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  bondStep,
  primerNorth,
  primeStep,
  someSettings,
} from "../facts.fixture.ts";
import type { ProductFacts, TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

function drying(planned: number | null, primer: Partial<ProductFacts>): TrayFacts {
  const prime = { ...primeStep, solventNeeded: null, airDrySeconds: planned };
  return aTray({
    technique: aTechnique({ steps: [prime, bondStep] }),
    items: [anItem({ ...primerNorth, ...primer }), anItem(bondNorth)],
  });
}
const count = (facts: TrayFacts): number => countFindings(facts, "drying-too-short");

describe("drying-too-short", () => {
  test.each([
    [9, 1],
    [10, 0],
    [11, 0],
  ])("planned %i s where the IFU asks for 10 s", (planned, found) => {
    expect(count(drying(planned, { airDrySeconds: 10, solvents: ["acetone"] }))).toBe(found);
  });

  test("the IFU decides even where the practice dries that solvent longer", () => {
    expect(count(drying(5, { airDrySeconds: 5, solvents: ["water"] }))).toBe(0);
    expect(count(drying(5, { airDrySeconds: 6, solvents: [] }))).toBe(1);
  });

  // Order of evaporation by vapour pressure at 25 °C: acetone 230, ethanol 59, tert-butanol 42,
  // water 24 mmHg, computed from published Antoine constants.
  test.each([
    [["acetone"], 5],
    [["acetone", "ethanol"], 8],
    [["ethanol", "tert-butanol"], 9],
    [["water", "acetone"], 10],
  ] as const)("where the IFU is silent %p needs the practice's %i s", (solvents, needed) => {
    const settings = someSettings({
      airDrySeconds: { acetone: 5, ethanol: 8, "tert-butanol": 9, water: 10 },
    });
    expect(count({ ...drying(needed, { solvents }), settings })).toBe(0);
    const short = { ...drying(needed - 1, { solvents }), settings };
    expect(getFinding(short, "drying-too-short").numbers).toMatchObject({
      reason: "solvent",
      plannedSeconds: needed - 1,
      neededSeconds: needed,
    });
  });

  test("a product without solvent needs none where its IFU is silent", () => {
    expect(count(drying(0, { solvents: [] }))).toBe(0);
  });

  test("solvents not stated are reckoned as water, the slowest", () => {
    expect(count(drying(10, { solvents: null }))).toBe(0);
    expect(getFinding(drying(9, { solvents: null }), "drying-too-short")).toMatchObject({
      numbers: { reason: "not-stated", solvent: "water", neededSeconds: 10 },
      because: [
        { what: "planned-air-dry", value: 9, from: "technique" },
        { what: "needed-air-dry", value: 10, from: "practice" },
      ],
    });
  });

  test("a step that plans no air-dry asks nothing, unless the IFU does", () => {
    expect(count(drying(null, { solvents: ["water"] }))).toBe(0);
    expect(count(drying(null, { airDrySeconds: 0 }))).toBe(0);
    expect(getFinding(drying(null, { airDrySeconds: 5 }), "drying-too-short").numbers).toEqual({
      reason: "ifu",
      step: "Step primer",
      plannedSeconds: 0,
      neededSeconds: 5,
    });
  });

  test("says both times, where each comes from, and to dry longer", () => {
    expect(getFinding(drying(9, {}), "drying-too-short")).toMatchObject({
      level: "stop",
      subject: { stepKey: "primer", itemId: "item-primer-north" },
      remedy: { code: "dry-longer", numbers: { neededSeconds: 10, step: "Step primer" } },
      because: [
        { what: "planned-air-dry", value: 9, from: "technique" },
        { what: "needed-air-dry", value: 10, from: "practice" },
        { what: "slowest-solvent", value: "water", from: "ifu" },
      ],
    });
  });
});
