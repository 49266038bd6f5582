import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, onShelf, primerNorth } from "../facts.fixture.ts";
import type { TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const capsule = aProduct({ singleUse: true });
const withCapsule = (usedForOtherOn: string | null, singleUse = true): TrayFacts =>
  aTray({
    items: [anItem(primerNorth), anItem({ ...capsule, singleUse }, { usedForOtherOn })],
  });

describe("single-use-reused", () => {
  test("stops a single-use container that has served another patient, and says which day", () => {
    expect(getFinding(withCapsule("2026-11-20"), "single-use-reused")).toMatchObject({
      level: "stop",
      subject: { itemId: "item-bond-north", stepKey: "adhesive" },
      numbers: { usedOn: "2026-11-20" },
      because: [{ what: "used-for-other", value: "2026-11-20", from: "stock" }],
    });
  });

  test("names another one where the shelf has it", () => {
    const tray = { ...withCapsule("2026-11-25"), shelf: [onShelf(capsule)] };
    expect(getFinding(tray, "single-use-reused").remedy.code).toBe("take-instead");
  });

  test("says nothing of one that is unused, nor of a bottle that serves many", () => {
    expect(countFindings(withCapsule(null), "single-use-reused")).toBe(0);
    expect(countFindings(withCapsule("2026-11-20", false), "single-use-reused")).toBe(0);
  });
});
