import { expect, test } from "@jest/globals";
import { readLabel, scannerFaultOf } from "./index.ts";

const today = "2026-06-15";

// From observed scanners: what each fault makes of a label.
test.each([
  ["]D2010950600013435210abC", "caps-lock"],
  ["&é\"'(-è_çà)", "keyboard-layout"],
  ["+d2010950600013435210ABC", "keyboard-layout"],
  ["]A3+A123BJC5D6E71", "check-character"],
  ["]A4a123BJC5D6E71G", "full-ascii"],
  ["]d2010950600013435210ABCDEFGHIJKL21MNOPQRSTUV", "separator-lost"],
  ["]d2010950600013435210ABC\u001d\u001d21X", "separator-doubled"],
  ["]d2010950600013435210AB", undefined],
  ["]d2010950600013435", undefined],
  ["hello", undefined],
])("of %j the scanner's fault is %s", (raw, fault) => {
  const read = readLabel(raw, { today });
  expect(read.ok ? undefined : scannerFaultOf(read.error)).toBe(fault);
});

test.each([
  ["]d2010950600013435210ABC17261231", "separator-suspected"],
  ["]d2010950600013435210ABC{GS}21X", "separator-substituted"],
  ["]d217261231", undefined],
])("of %j, which is read, the scanner's fault is %s", (raw, fault) => {
  const read = readLabel(raw, { today });
  expect(read.ok && read.warnings.map(scannerFaultOf)).toEqual([fault]);
});

test("what nobody knows is no fault of the scanner, nor what every object inherits", () => {
  expect(scannerFaultOf({ kind: "of_tomorrow", detail: "of_tomorrow" })).toBeUndefined();
  expect(scannerFaultOf({ kind: "constructor" })).toBeUndefined();
});
