import { describe, expect, test } from "@jest/globals";
import {
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  bondStep,
  onShelf,
  primerNorth,
  primeStep,
} from "../facts.fixture.ts";
import type { TechniqueStep, TrayFacts } from "../facts.ts";
import type { Solvent } from "../vocabulary.ts";
import { countFindings, getFinding, listCodes } from "./check-tray.fixture.ts";

function withPrimer(held: readonly Solvent[] | null, step: Partial<TechniqueStep> = {}): TrayFacts {
  return aTray({
    technique: aTechnique({ steps: [{ ...primeStep, ...step }, bondStep] }),
    items: [anItem({ ...primerNorth, solvents: held }), anItem(bondNorth)],
  });
}

describe("wrong-solvent", () => {
  test("a water-free primer at a self-etch step that needs water", () => {
    expect(getFinding(withPrimer(["ethanol"]), "wrong-solvent")).toMatchObject({
      level: "stop",
      subject: { stepKey: "primer" },
      numbers: { reason: "needed", solvent: "water", solvents: "ethanol", step: "Step primer" },
      because: [
        { what: "solvents", value: "ethanol", from: "ifu" },
        { what: "needed-solvent", value: "water", from: "technique" },
      ],
    });
  });

  test("every solvent must be among those allowed", () => {
    const allowed = { solventNeeded: null, solventsAllowed: ["ethanol", "water"] as const };
    expect(listCodes(withPrimer(["water", "ethanol"], allowed))).toEqual([]);
    expect(listCodes(withPrimer([], allowed))).toEqual([]);
    expect(getFinding(withPrimer(["water", "acetone"], allowed), "wrong-solvent")).toMatchObject({
      numbers: { reason: "not-allowed", solvent: "acetone", allowed: "ethanol,water" },
      because: [
        { what: "solvents", value: "water,acetone", from: "ifu" },
        { what: "allowed-solvents", value: "ethanol,water", from: "technique" },
      ],
    });
  });

  test("a solvent-free product is wrong where one is needed", () => {
    expect(getFinding(withPrimer([]), "wrong-solvent").numbers).toMatchObject({ reason: "needed" });
  });

  test("solvents not stated cannot be verified, so they stop a step that names any", () => {
    const named = { solventNeeded: null, solventsAllowed: ["water"] as const };
    for (const step of [{}, named]) {
      expect(getFinding(withPrimer(null, step), "wrong-solvent").numbers).toEqual({
        reason: "not-stated",
        step: "Step primer",
      });
    }
  });

  test("a step that names no solvents takes any, stated or not", () => {
    const free = { solventNeeded: null, solventsAllowed: null };
    for (const held of [null, [], ["acetone"] as const]) {
      expect(countFindings(withPrimer(held, free), "wrong-solvent")).toBe(0);
    }
  });

  test("names a container whose solvents fit and passes over one whose do not", () => {
    const facts = {
      ...withPrimer(["ethanol"]),
      shelf: [
        onShelf({ ...primerNorth, id: "dry", solvents: ["ethanol"] }, { id: "dry" }),
        onShelf({ ...primerNorth, id: "wet" }, { id: "wet" }),
      ],
    };
    expect(getFinding(facts, "wrong-solvent").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadContainerId: "wet" },
    });
  });

  test("is not said of a product that is of the wrong kind anyway", () => {
    const facts = aTray({
      items: [...aTray().items, anItem(bondNorth, { id: "x", stepKey: "primer" })],
    });
    expect(listCodes(facts)).toEqual(["wrong-kind"]);
  });
});
