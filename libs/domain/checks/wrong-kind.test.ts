import { describe, expect, test } from "@jest/globals";
import {
  aPlainProduct,
  aProduct,
  aTray,
  anItem,
  bondNorth,
  onShelf,
  primerNorth,
} from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

describe("wrong-kind", () => {
  const swapped = aTray({
    items: [
      anItem(primerNorth, { stepKey: "adhesive" }),
      anItem(bondNorth, { id: "other", stepKey: "adhesive" }),
    ],
  });

  test("a primer put at the adhesive's step says what it is and what the step takes", () => {
    expect(getFinding(swapped, "wrong-kind")).toMatchObject({
      level: "stop",
      subject: { itemId: "item-primer-north", stepKey: "adhesive" },
      numbers: { reason: "step", kind: "primer", step: "Step adhesive", accepts: "adhesive" },
      remedy: { code: "get-another", numbers: {} },
      because: [
        { what: "kind", value: "primer", from: "ifu" },
        { what: "accepted-kinds", value: "adhesive", from: "technique" },
      ],
    });
    expect(listCodes(swapped)).toEqual(["missing", "wrong-kind"]);
  });

  test("names a container of the right kind", () => {
    const facts = {
      ...swapped,
      shelf: [onShelf(primerNorth), onShelf(bondNorth, { id: "right" })],
    };
    expect(getFinding(facts, "wrong-kind").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadContainerId: "right" },
    });
  });

  test("a product that no step takes is to leave the tray", () => {
    const cement = anItem(aPlainProduct("provisional-cement"));
    const facts = aTray({ items: [...aTray().items, cement] });
    expect(getFinding(facts, "wrong-kind")).toMatchObject({
      subject: { stepKey: null },
      numbers: { reason: "no-step", kind: "provisional-cement" },
      remedy: { code: "remove-from-tray" },
    });
  });

  test("a product put at a step that the technique does not have is to leave the tray", () => {
    const facts = aTray({
      items: [...aTray().items, anItem(bondNorth, { id: "x", stepKey: "of-last-version" })],
    });
    expect(getFinding(facts, "wrong-kind").remedy.code).toBe("remove-from-tray");
  });

  test("a product of an accepted kind is never wrong, at its step or left to find it", () => {
    const universal = aProduct({ id: "u", kind: "universal-adhesive", solvents: ["water"] });
    const steps = aTray().technique.steps.map((step) => ({
      ...step,
      accepts: [...step.accepts, "universal-adhesive" as const],
    }));
    const technique = { ...aTray().technique, steps };
    expect(listCodes(aTray({ technique, items: [anItem(universal)] }))).toEqual([]);
  });
});
