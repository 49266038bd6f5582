import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, aTrayWithBond, onShelf } from "../facts.fixture.ts";
import type { TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const bonding = { on: "2026-12-16", accepts: ["adhesive", "bonding-cement"] as const };
const endingOn = (date: string, over: Partial<TrayFacts> = {}): TrayFacts => ({
  ...aTrayWithBond({ container: { useBy: { date, precision: "day" } } }),
  bonding,
  ...over,
});

describe("ends-before-bonding", () => {
  test.each([
    ["2026-12-15", 1],
    ["2026-12-16", 0],
    ["2026-12-17", 0],
  ])("a bottle that ends on %s, the bonding visit on the 16th: %i caution", (date, count) => {
    expect(countFindings(endingOn(date), "ends-before-bonding")).toBe(count);
  });

  test("names the dates compared, and a container that lasts through the visit", () => {
    const shelf = [
      onShelf(aProduct(), { id: "short", useBy: { date: "2026-12-14", precision: "day" } }),
      onShelf(aProduct(), { id: "long", useBy: { date: "2026-12-16", precision: "day" } }),
    ];
    expect(getFinding(endingOn("2026-12-15", { shelf }), "ends-before-bonding")).toMatchObject({
      level: "caution",
      numbers: { reason: "use-by", end: "2026-12-15", bonding: "2026-12-16" },
      remedy: { code: "take-instead", numbers: { insteadContainerId: "long" } },
    });
    const [short] = shelf;
    const tray = endingOn("2026-12-15", { shelf: short ? [short] : [] });
    expect(getFinding(tray, "ends-before-bonding").remedy.code).toBe("get-another");
  });

  test("is silent where no visit is planned, and of kinds that the visit does not take", () => {
    expect(countFindings(endingOn("2026-12-15", { bonding: null }), "ends-before-bonding")).toBe(0);
    const other = { ...bonding, accepts: ["bonding-cement"] as const };
    const tray = endingOn("2026-12-15", { bonding: other });
    expect(countFindings(tray, "ends-before-bonding")).toBe(0);
  });

  test("leaves what ends before this appointment to its own finding", () => {
    expect(countFindings(endingOn("2026-12-01"), "ends-before-bonding")).toBe(0);
    expect(countFindings(endingOn("2026-12-01"), "ends-before-appointment")).toBe(1);
    expect(countFindings(aTray(), "ends-before-bonding")).toBe(0);
  });
});
