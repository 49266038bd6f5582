import { describe, expect, test } from "@jest/globals";
import {
  aPlainProduct,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondStep,
  etchStep,
  onShelf,
} from "../facts.fixture.ts";
import type { Technique, TechniqueStep, TrayFacts } from "../facts.ts";
import type { Strategy } from "../vocabulary.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const etchant = anItem(aPlainProduct("etchant"));

function bonding(
  strategy: Strategy | null,
  etch: TechniqueStep | null,
  more: { visit?: Technique["visit"]; items?: TrayFacts["items"] } = {},
): TrayFacts {
  const steps = etch === null ? [bondStep] : [etch, bondStep];
  return aTray({
    technique: aTechnique({ steps, visit: more.visit ?? "sealing" }),
    items: [anItem(aProduct({ strategy })), ...(more.items ?? (etch === null ? [] : [etchant]))],
  });
}
const count = (facts: TrayFacts): number => countFindings(facts, "strategy-conflict");

describe("strategy-conflict", () => {
  test.each([
    ["self-etch", 1, 0],
    ["etch-and-rinse", 0, 1],
    ["universal", 0, 0],
    [null, 0, 0],
  ] as const)("%s: on etched dentin %i findings, on unetched %i", (strategy, etched, bare) => {
    expect(count(bonding(strategy, etchStep))).toBe(etched);
    expect(count(bonding(strategy, null))).toBe(bare);
  });

  test("etching the enamel alone leaves the dentin to the self-etch product", () => {
    const enamel = aStep("etchant", { etchesDentin: false });
    expect(count(bonding("self-etch", enamel))).toBe(0);
    expect(count(bonding("etch-and-rinse", enamel))).toBe(1);
  });

  test("an optional etch counts where a container serves it", () => {
    const optional = { ...etchStep, required: false };
    expect(count(bonding("self-etch", optional))).toBe(1);
    expect(count(bonding("self-etch", optional, { items: [] }))).toBe(0);
    expect(count(bonding("etch-and-rinse", optional))).toBe(0);
    expect(count(bonding("etch-and-rinse", optional, { items: [] }))).toBe(1);
  });

  test("at the bonding visit any etch will do for an etch-and-rinse product", () => {
    const enamel = aStep("etchant", { etchesDentin: false });
    expect(count(bonding("etch-and-rinse", enamel, { visit: "bonding" }))).toBe(0);
    expect(count(bonding("etch-and-rinse", null, { visit: "bonding" }))).toBe(1);
  });

  test("names the step that etches, and a product that may be etched", () => {
    const conflict = bonding("self-etch", etchStep);
    expect(getFinding(conflict, "strategy-conflict")).toMatchObject({
      level: "stop",
      numbers: { reason: "etched", step: "Step etchant" },
      remedy: { code: "change-technique", numbers: {} },
      because: [
        { what: "strategy", value: "self-etch", from: "ifu" },
        { what: "etch-step", value: "Step etchant", from: "technique" },
      ],
    });
    const shelf = [
      onShelf(aProduct({ id: "same" }), { id: "same" }),
      onShelf(aProduct({ id: "other", strategy: "etch-and-rinse" }), { id: "other" }),
    ];
    expect(getFinding({ ...conflict, shelf }, "strategy-conflict").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadContainerId: "other" },
    });
  });

  test("is about primers and adhesives, not about other products with a strategy", () => {
    const flowable = anItem(aProduct({ id: "flow", kind: "flowable", strategy: "etch-and-rinse" }));
    const technique = aTechnique({ steps: [...aTray().technique.steps, aStep("flowable")] });
    expect(count(aTray({ technique, items: [...aTray().items, flowable] }))).toBe(0);
  });
});
