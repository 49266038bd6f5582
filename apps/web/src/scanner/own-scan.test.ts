import { expect, test } from "@jest/globals";
import { makeOwnCode, showOwnCode, type OwnKind } from "#domain";
import { readScanned } from "./scan.ts";

const today = "2026-06-15";
const kinds: readonly [OwnKind, string][] = [
  ["container", "91"],
  ["location", "92"],
  ["tray", "93"],
];

test.each(kinds)("the practice's own code of a %s is read, scanned or typed", (kind, ai) => {
  const code = makeOwnCode(kind, 4_711);
  const typed = showOwnCode(code).toLowerCase();
  for (const raw of [`]d2${ai}${code}`, `${ai}${code}`, code, typed]) {
    expect([raw, readScanned({ barcodes: [raw] }, today)]).toEqual([raw, { kind, code }]);
  }
});

test("a code with one wrong character is none of ours", () => {
  const code = makeOwnCode("location", 4_711);
  const wrong = `${code.slice(0, 3)}${code[3] === "7" ? "8" : "7"}${code.slice(4)}`;
  expect(readScanned({ barcodes: [`]d292${wrong}`] }, today).kind).not.toBe("location");
  expect(readScanned({ barcodes: [wrong] }, today).kind).toBe("unreadable");
});
