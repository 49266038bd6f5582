import { describe, expect, test } from "@jest/globals";
import {
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  bondStep,
  primerNorth,
  primeStep,
} from "../facts.fixture.ts";
import type { TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

function applied(planned: number | null, asked: number | null): TrayFacts {
  const prime = { ...primeStep, applicationSeconds: planned };
  return aTray({
    technique: aTechnique({ steps: [prime, bondStep] }),
    items: [anItem({ ...primerNorth, applicationSeconds: asked }), anItem(bondNorth)],
  });
}

describe("application-too-short", () => {
  test.each([
    [19, 20, 1],
    [20, 20, 0],
    [21, 20, 0],
    [null, 20, 1],
    [null, null, 0],
    [0, 0, 0],
    [5, null, 0],
  ])("planned %p s where the IFU asks for %p s", (planned, asked, found) => {
    expect(countFindings(applied(planned, asked), "application-too-short")).toBe(found);
  });

  test("says both times, where each comes from, and to apply longer", () => {
    expect(getFinding(applied(10, 20), "application-too-short")).toMatchObject({
      level: "stop",
      subject: { stepKey: "primer", itemId: "item-primer-north" },
      numbers: { step: "Step primer", plannedSeconds: 10, neededSeconds: 20 },
      remedy: { code: "apply-longer", numbers: { neededSeconds: 20, step: "Step primer" } },
      because: [
        { what: "planned-application", value: 10, from: "technique" },
        { what: "needed-application", value: 20, from: "ifu" },
      ],
    });
  });
});
