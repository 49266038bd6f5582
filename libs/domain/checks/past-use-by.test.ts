import { describe, expect, test } from "@jest/globals";
import {
  aTray,
  aTrayWithBond,
  anItem,
  anUnknownItem,
  bondNorth,
  onShelf,
  primerNorth,
  today,
} from "../facts.fixture.ts";
import { countFindings, getFinding, listCodes } from "./check-tray.fixture.ts";

const endingOn = (date: string, precision: "day" | "month" = "day") =>
  aTrayWithBond({ container: { useBy: { date, precision } } });

describe("past-use-by", () => {
  test.each([
    ["the day before", "2026-11-24", 1],
    ["that very day", "2026-11-25", 0],
    ["the day after", "2026-11-26", 0],
  ])("a use-by date on %s of the check", (_, date, count) => {
    expect(countFindings(endingOn(date), "past-use-by")).toBe(count);
  });

  test("names both dates, says where they come from and has the container discarded", () => {
    expect(getFinding(endingOn("2026-11-20"), "past-use-by")).toEqual({
      code: "past-use-by",
      level: "stop",
      subject: {
        type: "container",
        itemId: "item-bond-north",
        containerId: "container-of-item-bond-north",
        stepKey: "adhesive",
        name: "Product bond-north CK7-QW4X",
      },
      numbers: { useBy: "2026-11-20", today, daysPast: 5 },
      remedy: { code: "discard", numbers: {} },
      because: [
        { what: "use-by", value: "2026-11-20", from: "label" },
        { what: "today", value: today, from: "reading" },
      ],
      until: null,
    });
  });

  test("names the container to take instead", () => {
    const facts = { ...endingOn("2026-11-24"), shelf: [onShelf(bondNorth)] };
    expect(getFinding(facts, "past-use-by").remedy).toEqual({
      code: "discard",
      numbers: {
        insteadContainerId: "container-on-shelf",
        insteadCode: "CM3-AB9T",
        insteadProduct: "Product bond-north",
        insteadPlace: "Operatory 2",
      },
    });
  });

  test.each([
    ["the last day of February", "2027-02-28T12:00:00Z", 0],
    ["the first of March", "2027-03-01T12:00:00Z", 1],
    ["29 February of a leap year", "2028-02-29T12:00:00Z", 0],
  ])("a date of month precision on %s", (_, at, count) => {
    const year = at.slice(0, 4);
    const facts = { ...endingOn(`${year}-02-01`, "month"), appointmentAt: at };
    expect(countFindings(facts, "past-use-by", at)).toBe(count);
  });

  test.each([
    ["America/Los_Angeles", 0],
    ["Europe/Berlin", 1],
    ["Pacific/Auckland", 1],
  ])("the day is the practice's: at 04:30 UTC after the last day, in %s", (timeZone, count) => {
    const at = "2026-12-01T04:30:00Z";
    const facts = { ...endingOn("2026-11-30"), timeZone, appointmentAt: at };
    expect(countFindings(facts, "past-use-by", at)).toBe(count);
  });

  test.each([
    ["2026-03-29T21:59:59Z", 0],
    ["2026-03-29T22:00:00Z", 1],
  ])("on the day the clocks go forward the day ends at 22:00 UTC: %s", (at, count) => {
    const facts = { ...endingOn("2026-03-29"), appointmentAt: at };
    expect(countFindings(facts, "past-use-by", at)).toBe(count);
  });

  test("a container without a use-by date has none to pass", () => {
    expect(listCodes(aTrayWithBond({ container: { useBy: null } }))).toEqual([]);
  });

  test("the label of a container never received counts, known product or not", () => {
    const scanned = { identifier: "1", lot: null, serial: null, useBy: "2026-11-24" };
    const never = aTray({
      items: [anItem(primerNorth), anItem(bondNorth, { container: null, scanned })],
    });
    expect(listCodes(never)).toEqual(["not-available", "past-use-by"]);
    const unknown = aTray({ items: [...aTray().items, { ...anUnknownItem("1"), scanned }] });
    expect(listCodes(unknown)).toEqual(["past-use-by", "unknown-product"]);
  });
});
