import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond } from "../facts.fixture.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const scanned = { identifier: null, lot: null, serial: "S7", useBy: null };

describe("serial-twice", () => {
  test("stops a serial that is registered on another container, and names that one", () => {
    const tray = aTrayWithBond({ scanned, serialTakenBy: "CM3AB9T" });
    expect(getFinding(tray, "serial-twice")).toMatchObject({
      level: "stop",
      numbers: { serial: "S7", other: "CM3-AB9T" },
      remedy: { code: "check-label" },
    });
  });

  test("says nothing of a serial that is there once", () => {
    expect(countFindings(aTrayWithBond({ scanned }), "serial-twice")).toBe(0);
  });
});
