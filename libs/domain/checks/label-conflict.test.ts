import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond } from "../facts.fixture.ts";
import type { ContainerFacts, ScannedFacts, TrayFacts } from "../facts.ts";
import { countFindings, getFinding, listCodes } from "./check-tray.fixture.ts";

function scannedAs(
  said: Partial<ScannedFacts>,
  container: Partial<ContainerFacts> = {},
): TrayFacts {
  return aTrayWithBond({
    scanned: { identifier: null, lot: null, serial: null, useBy: null, ...said },
    container,
  });
}

describe("label-conflict", () => {
  test("a label that says the same, or nothing, is no conflict", () => {
    const same = { lot: "L7", serial: "S1", useBy: "2028-03-31" };
    expect(listCodes(scannedAs(same, { serial: "S1" }))).toEqual([]);
    expect(listCodes(scannedAs({}, { serial: "S1" }))).toEqual([]);
  });

  test.each(["L-7", "l7", "LT", "L7 ", "L07"])("lot %j is not lot L7: no guessing", (lot) => {
    expect(getFinding(scannedAs({ lot }), "label-conflict")).toMatchObject({
      level: "stop",
      numbers: { reason: "lot", scanned: lot, stored: "L7" },
      remedy: { code: "check-label", numbers: {} },
      because: [
        { what: "lot", value: lot, from: "label" },
        { what: "lot", value: "L7", from: "stock" },
      ],
    });
  });

  test("one day's difference in the use-by date is a conflict, either way", () => {
    for (const useBy of ["2028-03-30", "2028-04-01"]) {
      expect(getFinding(scannedAs({ useBy }), "label-conflict").numbers).toEqual({
        reason: "use-by",
        scanned: useBy,
        stored: "2028-03-31",
      });
    }
  });

  test("a stored date of month precision is compared as its month's last day", () => {
    const stored = { useBy: { date: "2028-03-01", precision: "month" as const } };
    expect(countFindings(scannedAs({ useBy: "2028-03-31" }, stored), "label-conflict")).toBe(0);
    expect(countFindings(scannedAs({ useBy: "2028-03-15" }, stored), "label-conflict")).toBe(1);
  });

  test("a date on the label where none is stored is a conflict", () => {
    const finding = getFinding(
      scannedAs({ useBy: "2028-03-31" }, { useBy: null }),
      "label-conflict",
    );
    expect(finding.numbers).toEqual({ reason: "use-by-not-stored", scanned: "2028-03-31" });
    expect(finding.because).toEqual([{ what: "use-by", value: "2028-03-31", from: "label" }]);
  });

  test("another serial is a conflict, one where none was stored is not", () => {
    expect(countFindings(scannedAs({ serial: "S2" }, { serial: "S1" }), "label-conflict")).toBe(1);
    expect(countFindings(scannedAs({ serial: "S2" }, { serial: null }), "label-conflict")).toBe(0);
  });

  test("each disagreement is a finding of its own", () => {
    const facts = scannedAs({ lot: "X", serial: "S2", useBy: "2027-01-01" }, { serial: "S1" });
    expect(countFindings(facts, "label-conflict")).toBe(3);
  });

  test("a container never received has nothing stored to disagree with", () => {
    const scanned = { identifier: "1", lot: "X", serial: "S", useBy: "2028-01-01" };
    expect(countFindings(aTrayWithBond({ container: null, scanned }), "label-conflict")).toBe(0);
  });
});
