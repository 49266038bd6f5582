import { describe, expect, test } from "@jest/globals";
import {
  aProduct,
  aTray,
  aTrayWithBond,
  anItem,
  appointmentDay,
  bondNorth,
  onShelf,
  primerNorth,
} from "../facts.fixture.ts";
import { getFinding, listCodes } from "./check-tray.fixture.ts";

const endingOn = (date: string) =>
  aTrayWithBond({ container: { useBy: { date, precision: "day" } } });

describe("ends-before-appointment", () => {
  test.each([
    ["already past", "2026-11-24", "past-use-by"],
    ["on the day of the check", "2026-11-25", "ends-before-appointment"],
    ["the day before the appointment", "2026-12-01", "ends-before-appointment"],
    ["on the day of the appointment", "2026-12-02", "short-dated"],
    ["the day after the appointment", "2026-12-03", "short-dated"],
  ])("a container that ends %s raises one finding", (_, date, code) => {
    expect(listCodes(endingOn(date))).toEqual([code]);
  });

  test("an appointment that was to be earlier than the check asks nothing more", () => {
    const late = { ...endingOn("2026-11-25"), appointmentAt: "2026-11-24T08:00:00Z" };
    expect(listCodes(late)).toEqual(["short-dated"]);
  });

  test("the appointment's day is the practice's", () => {
    // 23:30 UTC on 1 December is 2 December in Berlin and still 1 December in New York.
    const facts = { ...endingOn("2026-12-01"), appointmentAt: "2026-12-01T23:30:00Z" };
    expect(listCodes(facts)).toEqual(["ends-before-appointment"]);
    expect(listCodes({ ...facts, timeZone: "America/New_York" })).toEqual(["short-dated"]);
  });

  test("the label of a container never received counts as well", () => {
    const scanned = { identifier: "1", lot: null, serial: null, useBy: "2026-12-01" };
    expect(listCodes(aTrayWithBond({ container: null, scanned }))).toEqual([
      "ends-before-appointment",
      "not-available",
    ]);
  });

  test.each([
    [{ useBy: { date: "2026-12-01", precision: "day" } }, "use-by", "label"],
    [{ openedOn: "2026-11-17", state: "open" }, "usable-through", "ifu"],
  ] as const)("says which limit decided: %j", (container, what, from) => {
    const bond = aProduct({ inUseLife: { count: 14, unit: "day" } });
    const facts = aTray({ items: [anItem(primerNorth), anItem(bond, { container })] });
    expect(getFinding(facts, "ends-before-appointment").because).toEqual([
      { what, value: "2026-12-01", from },
      { what: "appointment", value: appointmentDay, from: "practice" },
    ]);
  });

  test("names a container that lasts, never one that does not", () => {
    const facts = {
      ...endingOn("2026-12-01"),
      shelf: [
        onShelf(bondNorth, { id: "a", useBy: { date: "2026-12-01", precision: "day" } }),
        onShelf(bondNorth, { id: "b", useBy: { date: "2026-12-02", precision: "day" } }),
      ],
    };
    expect(getFinding(facts, "ends-before-appointment")).toMatchObject({
      level: "stop",
      numbers: { reason: "use-by", end: "2026-12-01", appointment: appointmentDay },
      remedy: { code: "take-instead", numbers: { insteadContainerId: "b" } },
      until: "2026-12-02",
    });
    expect(
      getFinding({ ...facts, shelf: facts.shelf.slice(0, 1) }, "ends-before-appointment").remedy,
    ).toEqual({ code: "get-another", numbers: {} });
  });
});
