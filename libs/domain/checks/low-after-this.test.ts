import { describe, expect, test } from "@jest/globals";
import { aTray, anItem, bondNorth, primerNorth } from "../facts.fixture.ts";
import type { TrayItemFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const left = (usesLeft: number, reorderUses = 5) => withStock({ usesLeft, reorderUses });
const withStock = (stock: TrayItemFacts["stock"]) =>
  aTray({ items: [anItem(primerNorth), anItem(bondNorth, { stock })] });

describe("low-after-this", () => {
  test.each([
    [5, 1],
    [6, 0],
    [7, 0],
  ])("%i uses left, one tooth, reordered below 5: %i note", (usesLeft, count) => {
    expect(countFindings(left(usesLeft), "low-after-this")).toBe(count);
  });

  test("counts a use for each tooth, and never less than none", () => {
    const [tooth] = aTray().teeth;
    const two = { ...left(6), teeth: [tooth!, { ...tooth!, tooth: "17" }] };
    expect(getFinding(two, "low-after-this").numbers.left).toBe(4);
    expect(getFinding(left(0), "low-after-this").numbers.left).toBe(0);
  });

  test("says it once for two containers of a product, as a note that leaves the tray clear", () => {
    const stock = { usesLeft: 2, reorderUses: 5 };
    const items = ["a", "b"].map((id) => anItem(bondNorth, { id, stock }));
    expect(
      getFinding({ ...aTray(), items: [anItem(primerNorth), ...items] }, "low-after-this"),
    ).toMatchObject({
      level: "info",
      remedy: { code: "reorder", numbers: { product: "Product bond-north" } },
    });
  });

  test("is silent where nobody has set a point", () => {
    expect(countFindings(withStock(null), "low-after-this")).toBe(0);
  });
});
