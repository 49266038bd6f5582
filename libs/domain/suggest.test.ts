import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import { checkTray } from "./checks/check-tray.ts";
import {
  aPlainProduct,
  aProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondNorth,
  checkedAt,
  onShelf,
  operatoryOne,
  operatoryTwo,
  primerNorth,
  quarantine,
  refrigerator,
} from "./facts.fixture.ts";
import type { ContainerFacts, TrayFacts } from "./facts.ts";
import { suggestContainers } from "./suggest.ts";
import { containerStates, locationKinds } from "./vocabulary.ts";

const useBy = (date: string): Pick<ContainerFacts, "useBy"> => ({
  useBy: { date, precision: "day" },
});
const open = { openedOn: "2026-11-20", state: "open" as const };

function suggest(shelf: TrayFacts["shelf"], over: Partial<TrayFacts> = {}): readonly string[] {
  const facts = aTray({ items: [anItem(primerNorth)], shelf, ...over });
  return suggestContainers(facts, "adhesive", checkedAt).map((one) => one.container.id);
}
const stock = (id: string, over: Partial<ContainerFacts> = {}): TrayFacts["shelf"][number] =>
  onShelf(bondNorth, { id, code: id, ...over });

describe("suggesting containers for a step", () => {
  test("first expired first out, open before sealed, this operatory before others", () => {
    const shelf = [
      stock("none", { useBy: null }),
      stock("late"),
      stock("late-here", { place: operatoryOne }),
      stock("late-open-there", { ...open, place: refrigerator }),
      stock("early", useBy("2027-01-31")),
      stock("earliest", useBy("2026-12-31")),
    ];
    const order = ["earliest", "early", "late-open-there", "late-here", "late", "none"];
    expect(suggest(shelf)).toEqual(order);
    expect(suggest([...shelf].reverse())).toEqual(order);
  });

  test("an opened container ranks by the end of its in-use life", () => {
    const bond = aProduct({ inUseLife: { count: 30, unit: "day" } });
    const shelf = [
      onShelf(bond, { id: "sealed", ...useBy("2027-01-31") }),
      onShelf(bond, { id: "opened", ...open, ...useBy("2028-12-31") }),
    ];
    expect(suggest(shelf)).toEqual(["opened", "sealed"]);
  });

  test("what the template prefers comes first, and within it what ends first", () => {
    const other = aProduct({ id: "other", name: "Bond of another labeler", system: null });
    const shelf = [
      stock("earliest", useBy("2026-12-31")),
      onShelf(other, { id: "late" }),
      onShelf(other, { id: "sooner", ...useBy("2027-06-30") }),
    ];
    const wish = { adhesive: ["other"] };
    expect(suggest(shelf)).toContain("earliest");
    const given = suggest(shelf, { items: [], preferred: wish });
    expect(given).toEqual(["sooner", "late", "earliest"]);
    // At another step it says nothing.
    const elsewhere = suggest(shelf, { items: [], preferred: { prime: ["other"] } });
    expect(elsewhere[0]).toBe("earliest");
  });

  test("a preference brings in nothing that would not be suggested without it", () => {
    const wish = fc.array(fc.constantFrom("bond-north", "other", "third"), { maxLength: 3 });
    const days = fc.integer({ min: 1, max: 28 }).map((day) => String(day).padStart(2, "0"));
    const made = fc.array(
      fc.record({ product: fc.constantFrom("other", "third"), day: days, gone: fc.boolean() }),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(wish, made, (preferred, containers) => {
        const shelf = containers.map(({ product, day, gone }, index) =>
          onShelf(aProduct({ id: product, system: null }), {
            id: `${index}`,
            code: `${index}`,
            ...useBy(gone ? "2020-01-01" : `2027-01-${day}`),
          }),
        );
        const plain = suggest(shelf, { items: [] });
        const wished = suggest(shelf, { items: [], preferred: { adhesive: preferred } });
        expect([...wished].sort()).toEqual([...plain].sort());
        for (const product of ["other", "third"]) {
          const ofProduct = (ids: readonly string[]) =>
            ids.filter((id) => containers[Number(id)]?.product === product);
          expect(ofProduct(wished)).toEqual(ofProduct(plain));
        }
      }),
    );
  });

  test("no operatory of the appointment prefers none", () => {
    const shelf = [stock("a", { place: operatoryTwo }), stock("b", { place: operatoryOne })];
    expect(suggest(shelf)).toEqual(["b", "a"]);
    expect(suggest(shelf, { place: null })).toEqual(["a", "b"]);
  });

  test.each([
    ["of another kind", onShelf(primerNorth)],
    ["past before the appointment", stock("x", useBy("2026-12-01"))],
    ["in quarantine", stock("x", { state: "quarantined", place: quarantine })],
    ["of another system", onShelf(aProduct({ system: { id: "south", name: "South" } }))],
    ["of a strategy that nothing is etched for", onShelf(aProduct({ strategy: "etch-and-rinse" }))],
    ["of a product to dry that the step does not", onShelf(aProduct({ airDrySeconds: 5 }))],
    ["on this tray already", stock("container-of-item-primer-north")],
  ])("never one that is %s", (_, candidate) => {
    expect(suggest([candidate])).toEqual([]);
  });

  test("in place of a container its own product goes before another that ends earlier", () => {
    const facts = aTray({
      items: [anItem(primerNorth), anItem(bondNorth, { container: { state: "empty" } })],
      shelf: [
        onShelf(aProduct({ id: "cousin" }), { id: "cousin", ...useBy("2027-01-01") }),
        stock("later", useBy("2028-02-01")),
        stock("sooner", useBy("2028-01-01")),
      ],
    });
    const [finding] = checkTray(facts, checkedAt).findings;
    expect(finding?.remedy.numbers.insteadContainerId).toBe("sooner");
    const without = checkTray({ ...facts, shelf: facts.shelf.slice(0, 1) }, checkedAt);
    expect(without.findings[0]?.remedy.numbers.insteadContainerId).toBe("cousin");
  });

  test("in place of a container that serves two steps only one that serves both", () => {
    const universal = aProduct({ id: "u", kind: "universal-adhesive", solvents: ["water"] });
    const steps = ["primer", "adhesive"].map((key) => ({
      ...aStep("universal-adhesive"),
      key,
      solventsAllowed: key === "primer" ? (["water"] as const) : null,
    }));
    const facts = aTray({
      technique: aTechnique({ steps }),
      items: [anItem(universal, { container: { state: "empty" } })],
      shelf: [onShelf({ ...universal, id: "v", solvents: ["acetone"] })],
    });
    const [finding] = checkTray(facts, checkedAt).findings;
    expect([finding?.code, finding?.remedy.code]).toEqual(["not-available", "get-another"]);
  });

  test("one of another system is refused however many others on the tray do not mind", () => {
    const south = onShelf(aProduct({ id: "south", system: { id: "south", name: "South" } }));
    const bystander = anItem(aPlainProduct("composite"));
    expect(suggest([south], { items: [bystander, anItem(primerNorth)] })).toEqual([]);
    expect(suggest([south], { items: [bystander] })).toEqual(["container-on-shelf"]);
  });

  test("none for a step that the technique does not have", () => {
    expect(suggestContainers(aTray({ shelf: [stock("a")] }), "gone", checkedAt)).toEqual([]);
  });

  test("following a suggestion raises no stop about the container taken", () => {
    const products = [
      bondNorth,
      aProduct({ id: "south", system: { id: "south", name: "South" } }),
      aProduct({ id: "etch", strategy: "etch-and-rinse" }),
      aProduct({ id: "dry", airDrySeconds: 3 }),
      aPlainProduct("composite"),
    ];
    const entry = fc.record({
      product: fc.constantFrom(...products),
      state: fc.constantFrom(...containerStates),
      kind: fc.constantFrom(...locationKinds),
      day: fc.constantFrom("2026-11-24", "2026-12-01", "2026-12-02", "2028-01-01"),
    });
    let followed = 0;
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 12 }), (drawn) => {
        const shelf = drawn.map(({ product, state, kind, day }, index) =>
          onShelf(product, {
            id: `c${index}`,
            state,
            place: { ...operatoryTwo, kind },
            ...useBy(day),
          }),
        );
        const facts = aTray({ items: [anItem(primerNorth)], shelf });
        const [best] = suggestContainers(facts, "adhesive", checkedAt);
        if (best === undefined) return;
        followed += 1;
        const taken = anItem(best.product, { container: best.container });
        const after = checkTray({ ...facts, items: [...facts.items, taken] }, checkedAt);
        expect(after.findings.filter((finding) => finding.level === "stop")).toEqual([]);
      }),
      { numRuns: 500 },
    );
    expect(followed).toBeGreaterThan(0);
  });
});
