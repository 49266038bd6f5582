import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, checkedAt, primerNorth, someSettings } from "../facts.fixture.ts";
import { checkTray } from "./check-tray.ts";
import { getFinding } from "./check-tray.fixture.ts";

const facts = aTray({ items: [anItem(primerNorth), anItem(aProduct({ confirmed: false }))] });

describe("unconfirmed", () => {
  test("is a caution that names the entry", () => {
    expect(getFinding(facts, "unconfirmed")).toMatchObject({
      level: "caution",
      numbers: { product: "Product bond-north" },
      remedy: { code: "confirm-product", numbers: { product: "Product bond-north" } },
    });
    expect(checkTray(facts, checkedAt).verdict).toBe("caution");
  });

  test("is a stop where the practice raised it", () => {
    const raised = { ...facts, settings: someSettings({ raised: ["unconfirmed"] }) };
    expect(checkTray(raised, checkedAt).verdict).toBe("stop");
  });
});
