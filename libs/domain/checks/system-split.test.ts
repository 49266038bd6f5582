import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  onShelf,
  primerNorth,
} from "../facts.fixture.ts";
import type { ProductFacts, TrayFacts } from "../facts.ts";
import { countFindings, getFinding, listCodes } from "./check-tray.fixture.ts";

const south = { id: "south", name: "South" };
const bondSouth = aProduct({ id: "bond-south", system: south });
const primerSouth = { ...primerNorth, id: "primer-south", system: south };

const pair = (primer: ProductFacts, bond: ProductFacts): TrayFacts =>
  aTray({ items: [anItem(primer), anItem(bond)] });

describe("system-split", () => {
  test("a primer of one two-bottle self-etch system with the adhesive of another stops", () => {
    expect(listCodes(pair(primerNorth, bondSouth))).toEqual(["system-split"]);
    expect(getFinding(pair(primerNorth, bondSouth), "system-split")).toMatchObject({
      level: "stop",
      subject: { itemId: "item-primer-north", stepKey: "primer" },
      numbers: {
        reason: "differ",
        system: "North",
        otherSystem: "South",
        other: "Product bond-south CK7-QW4X",
      },
      remedy: { code: "pair-from-one-system", numbers: {} },
      because: [
        { what: "system", value: "North", from: "ifu" },
        { what: "system", value: "South", from: "ifu" },
      ],
    });
  });

  test("names the partner of the primer's system, else a primer of the partner's", () => {
    const split = pair(primerNorth, bondSouth);
    const both = [onShelf(primerSouth, { id: "p" }), onShelf(bondNorth, { id: "b" })];
    const numbersOf = (shelf: TrayFacts["shelf"]) =>
      getFinding({ ...split, shelf }, "system-split").remedy.numbers;
    expect(numbersOf(both)).toMatchObject({ insteadContainerId: "b" });
    expect(numbersOf(both.slice(0, 1))).toMatchObject({ insteadContainerId: "p" });
    expect(numbersOf([onShelf(bondSouth)])).toEqual({});
  });

  test("two systems of one name are two systems", () => {
    const namesake = aProduct({ system: { id: "north-2", name: "North" } });
    expect(countFindings(pair(primerNorth, namesake), "system-split")).toBe(1);
  });

  test("half of a system beside a stranger of none is split, two of none are not", () => {
    const primer = { ...primerNorth, system: null };
    const bond = aProduct({ system: null });
    expect(countFindings(pair(primer, bondNorth), "system-split")).toBe(1);
    expect(countFindings(pair(primerNorth, bond), "system-split")).toBe(1);
    expect(countFindings(pair(primer, bond), "system-split")).toBe(0);
  });

  test("an activator must come from its resin's system", () => {
    const activator = aProduct({ id: "activator", kind: "activator", system: south });
    const universal = aProduct({ id: "universal", kind: "universal-adhesive" });
    const steps = [aStep("universal-adhesive"), aStep("activator")];
    const facts = aTray({
      technique: aTechnique({ steps }),
      items: [anItem(activator), anItem(universal)],
    });
    expect(listCodes(facts)).toEqual(["system-split"]);
  });

  test("a third bottle of another system is a stranger too", () => {
    const facts = aTray({ items: [anItem(primerNorth), anItem(bondNorth), anItem(bondSouth)] });
    expect(countFindings(facts, "system-split")).toBe(1);
  });

  test("an etchant, a flowable or a second adhesive may come from anywhere", () => {
    const kinds = ["etchant", "flowable"] as const;
    const others = kinds.map((kind) => anItem(aProduct({ id: kind, kind, system: south })));
    const steps = [...aTray().technique.steps, ...kinds.map((kind) => aStep(kind))];
    const facts = aTray({ technique: aTechnique({ steps }), items: [...aTray().items, ...others] });
    expect(listCodes(facts)).toEqual([]);
    const adhesives = aTray({ items: [anItem(bondNorth), anItem(bondSouth)] });
    expect(countFindings(adhesives, "system-split")).toBe(0);
  });
});
