import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  bondStep,
  onShelf,
  primeStep,
  primerNorth,
} from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

const onlyPrimer = aTray({ items: [anItem(primerNorth)] });

describe("missing", () => {
  test("an empty tray misses every required step, in the technique's order", () => {
    const facts = aTray({ items: [] });
    expect(listCodes(facts)).toEqual(["missing", "missing"]);
  });

  test("says the step and what it takes", () => {
    expect(getFinding(onlyPrimer, "missing")).toEqual({
      code: "missing",
      level: "stop",
      subject: {
        type: "step",
        itemId: null,
        containerId: null,
        stepKey: "adhesive",
        name: "Step adhesive",
      },
      numbers: { accepts: "adhesive" },
      remedy: { code: "scan-missing", numbers: {} },
      because: [{ what: "accepted-kinds", value: "adhesive", from: "technique" }],
      until: null,
    });
  });

  test("names the container to fetch, of the system that is on the tray", () => {
    const south = aProduct({ id: "bond-south", system: { id: "south", name: "South" } });
    const soon = { useBy: { date: "2026-12-30", precision: "day" as const } };
    const shelf = [onShelf(south, { id: "stranger", ...soon }), onShelf(bondNorth)];
    expect(getFinding({ ...onlyPrimer, shelf }, "missing").remedy).toMatchObject({
      code: "scan-missing",
      numbers: { insteadContainerId: "container-on-shelf", insteadPlace: "Operatory 2" },
    });
  });

  test("an optional step, or one without material, misses nothing", () => {
    const steps = [
      primeStep,
      bondStep,
      aStep("composite", { required: false }),
      aStep("other-barrier", { accepts: [] }),
    ];
    expect(listCodes(aTray({ technique: aTechnique({ steps }) }))).toEqual([]);
  });

  test("an unfit container is not missing: its own finding speaks", () => {
    const facts = aTray({
      items: [anItem(primerNorth), anItem(bondNorth, { container: { state: "empty" } })],
    });
    expect(listCodes(facts)).toEqual(["not-available"]);
  });

  test("one container may fill two steps", () => {
    const universal = aProduct({ id: "u", kind: "universal-adhesive", solvents: ["water"] });
    const steps = [primeStep, bondStep].map((step) => ({
      ...step,
      accepts: ["universal-adhesive" as const],
    }));
    const facts = aTray({ technique: aTechnique({ steps }), items: [anItem(universal)] });
    expect(listCodes(facts)).toEqual([]);
  });
});
