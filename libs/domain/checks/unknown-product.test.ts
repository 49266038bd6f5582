import { describe, expect, test } from "@jest/globals";
import { aTray, anUnknownItem } from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

describe("unknown-product", () => {
  test("names the identifier that is in no catalogue entry and asks to register it", () => {
    const facts = aTray({ items: [...aTray().items, anUnknownItem("09506000134352")] });
    expect(listCodes(facts)).toEqual(["unknown-product"]);
    expect(getFinding(facts, "unknown-product")).toMatchObject({
      level: "stop",
      subject: { type: "product", itemId: "item-unknown", stepKey: null, name: "09506000134352" },
      numbers: { reason: "identifier", identifier: "09506000134352" },
      remedy: { code: "register-product" },
      because: [{ what: "identifier", value: "09506000134352", from: "label" }],
    });
  });

  test("a label without identifier is named by its lot or serial", () => {
    const unknown = anUnknownItem(null);
    const named = (lot: string | null, serial: string | null): string => {
      const scanned = { ...unknown.scanned, lot, serial };
      const facts = aTray({ items: [...aTray().items, { ...unknown, scanned }] });
      return getFinding(facts, "unknown-product").subject.name;
    };
    expect([named("L1", "S1"), named(null, "S1"), named(null, null)]).toEqual(["L1", "S1", "?"]);
  });

  test("put at a step by a person, it fills the place and stops all the same", () => {
    const unknown = { ...anUnknownItem("1"), stepKey: "adhesive" };
    const facts = aTray({ items: [...aTray().items.slice(0, 1), unknown] });
    expect(listCodes(facts)).toEqual(["unknown-product"]);
  });
});
