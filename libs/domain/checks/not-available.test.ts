import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond, bondNorth, onShelf, operatoryOne } from "../facts.fixture.ts";
import { containerStates } from "../vocabulary.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

describe("not-available", () => {
  test("fires for empty, discarded, returned and lost containers and no other state", () => {
    const fired = containerStates.filter((state) =>
      listCodes(aTrayWithBond({ container: { state } })).includes("not-available"),
    );
    expect(fired).toEqual(["empty", "discarded", "returned", "lost"]);
  });

  test("names the other tray and a container that is free", () => {
    const facts = {
      ...aTrayWithBond({ onOtherTray: { id: "tray-9", name: "Tray 14:00" } }),
      shelf: [onShelf(bondNorth)],
    };
    expect(getFinding(facts, "not-available")).toMatchObject({
      level: "stop",
      numbers: { reason: "other-tray", tray: "Tray 14:00" },
      remedy: { code: "take-instead", numbers: { insteadContainerId: "container-on-shelf" } },
      because: [{ what: "other-tray", value: "Tray 14:00", from: "stock" }],
    });
  });

  test.each([
    ["no such container is known", { container: null }],
    [
      "it is still booked at the supplier",
      { container: { place: { ...operatoryOne, kind: "supplier" as const } } },
    ],
  ])("asks to receive it first where %s", (_, over) => {
    const facts = aTrayWithBond(over);
    expect(listCodes(facts)).toEqual(["not-available"]);
    expect(getFinding(facts, "not-available")).toMatchObject({
      numbers: { reason: "not-received" },
      remedy: { code: "receive-first" },
    });
  });

  test("is about the product where there is no container", () => {
    expect(getFinding(aTrayWithBond({ container: null }), "not-available").subject).toEqual({
      type: "product",
      itemId: "item-bond-north",
      containerId: null,
      stepKey: "adhesive",
      name: "Product bond-north",
    });
  });
});
