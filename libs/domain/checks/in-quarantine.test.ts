import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond, bondNorth, onShelf, operatoryOne, quarantine } from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

describe("in-quarantine", () => {
  test.each([
    ["the container's state", { state: "quarantined" as const, place: operatoryOne }],
    ["the kind of its place", { state: "sealed" as const, place: quarantine }],
    ["both", { state: "quarantined" as const, place: quarantine }],
  ])("is known by %s", (_, container) => {
    expect(listCodes(aTrayWithBond({ container }))).toEqual(["in-quarantine"]);
  });

  test("names the place and never a quarantined container to take instead", () => {
    const facts = {
      ...aTrayWithBond({ container: { state: "quarantined", place: quarantine } }),
      shelf: [onShelf(bondNorth, { state: "quarantined", place: quarantine })],
    };
    expect(getFinding(facts, "in-quarantine")).toMatchObject({
      level: "stop",
      numbers: { place: "Red shelf" },
      remedy: { code: "get-another", numbers: {} },
    });
    const better = { ...facts, shelf: [...facts.shelf, onShelf(bondNorth, { id: "good" })] };
    expect(getFinding(better, "in-quarantine").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadContainerId: "good" },
    });
  });
});
