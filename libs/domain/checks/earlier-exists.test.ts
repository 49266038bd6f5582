import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aTray,
  aTrayWithBond,
  bondNorth,
  checkedAt,
  onShelf,
  operatoryOne,
  quarantine,
} from "../facts.fixture.ts";
import type { ContainerFacts, TrayFacts } from "../facts.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";
import { checkTray } from "./check-tray.ts";

const useBy = (date: string): Pick<ContainerFacts, "useBy"> => ({
  useBy: { date, precision: "day" },
});
const open = { openedOn: "2026-11-20", state: "open" as const };
const withShelf = (...shelf: TrayFacts["shelf"]): TrayFacts => aTray({ shelf });
const count = (facts: TrayFacts): number => countFindings(facts, "earlier-exists");

describe("earlier-exists", () => {
  test.each([
    ["a day earlier", "2028-03-30", 1],
    ["the same day", "2028-03-31", 0],
    ["a day later", "2028-04-01", 0],
  ])("another container of the product that ends %s", (_, date, found) => {
    expect(count(withShelf(onShelf(bondNorth, useBy(date))))).toBe(found);
  });

  test("is a note with code and place of the container to take; the tray stays clear", () => {
    const facts = withShelf(onShelf(bondNorth, useBy("2028-03-30")));
    expect(getFinding(facts, "earlier-exists")).toMatchObject({
      level: "info",
      subject: { itemId: "item-bond-north" },
      numbers: { reason: "earlier", end: "2028-03-31", insteadEnd: "2028-03-30" },
      remedy: {
        code: "take-instead",
        numbers: { insteadCode: "CM3-AB9T", insteadPlace: "Operatory 2" },
      },
      because: [
        { what: "other-end", value: "2028-03-30", from: "stock" },
        { what: "this-end", value: "2028-03-31", from: "stock" },
      ],
      until: "2028-03-31",
    });
    expect(checkTray(facts, checkedAt).verdict).toBe("clear");
  });

  test("an open container of the same date goes before this sealed one", () => {
    expect(getFinding(withShelf(onShelf(bondNorth, open)), "earlier-exists").numbers).toMatchObject(
      {
        reason: "open",
      },
    );
    const bothOpen = { ...aTrayWithBond({ container: open }), shelf: [onShelf(bondNorth, open)] };
    expect(count(bothOpen)).toBe(0);
  });

  test("of two containers without an end the open one goes first, with no date to compare", () => {
    const facts = {
      ...aTrayWithBond({ container: { useBy: null } }),
      shelf: [onShelf(bondNorth, { ...open, useBy: null })],
    };
    const finding = getFinding(facts, "earlier-exists");
    expect([finding.numbers.reason, finding.because, finding.until]).toEqual(["open", [], null]);
  });

  test("never contradicts itself: of two containers at most one yields to the other", () => {
    const variants = [{}, open, useBy("2028-03-30"), { ...open, ...useBy("2028-04-01") }];
    for (const one of variants) {
      for (const other of variants) {
        const there = { ...aTrayWithBond({ container: one }), shelf: [onShelf(bondNorth, other)] };
        const back = { ...aTrayWithBond({ container: other }), shelf: [onShelf(bondNorth, one)] };
        expect(count(there) + count(back)).toBeLessThanOrEqual(1);
      }
    }
  });

  test.each([
    ["past before the appointment", useBy("2026-12-01")],
    ["quarantined", { ...useBy("2028-01-01"), state: "quarantined", place: quarantine }],
    ["empty", { ...useBy("2028-01-01"), state: "empty" }],
    ["outside", { ...useBy("2028-01-01"), place: { ...operatoryOne, kind: "supplier" } }],
    ["on this tray already", { ...useBy("2028-01-01"), id: "container-of-item-primer-north" }],
  ] as const)("never names a container that is %s", (_, container) => {
    expect(count(withShelf(onShelf(bondNorth, container)))).toBe(0);
  });

  test("never names another product", () => {
    const other = aProduct({ id: "bond-of-another-maker" });
    expect(count(withShelf(onShelf(other, useBy("2027-01-01"))))).toBe(0);
  });

  test("is not said of a container that must not be used anyway", () => {
    const shelf = [onShelf(bondNorth, useBy("2028-01-01"))];
    for (const over of [
      { container: { state: "quarantined" as const, place: quarantine } },
      { withdrawals: [{ id: "w", reference: "W" }] },
      { onOtherTray: { id: "t", name: "T" } },
      { container: null },
    ]) {
      expect(count({ ...aTrayWithBond(over), shelf })).toBe(0);
    }
  });

  test("names the best of several", () => {
    const shelf = ["2028-03-01", "2027-03-01", "2028-02-01"].map((date) =>
      onShelf(bondNorth, { id: date, ...useBy(date) }),
    );
    expect(getFinding(withShelf(...shelf), "earlier-exists").numbers).toMatchObject({
      insteadContainerId: "2027-03-01",
    });
  });
});
