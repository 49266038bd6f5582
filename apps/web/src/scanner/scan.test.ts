import { describe, expect, test } from "@jest/globals";
import { makeOwnCode } from "#domain";
import { usualScannerProfile } from "#labels";
import { isInverted, joinTexts, mayHaveRunTogether, oddOf, readBurst, textsOf } from "./scan.ts";
import type { Burst } from "./wedge.ts";

const today = "2026-06-15";
const label = "]d2010950600013435210AB-7\u001d21S9";
const burstOf = (typed: string, more: Partial<Burst> = {}): Burst => ({
  typed,
  byPosition: typed,
  endKey: "Enter",
  gapsMs: [4],
  capsLock: false,
  ...more,
});
const profileWith = (more: object) => ({ ...usualScannerProfile, ...more });

describe("a burst", () => {
  test("is read as it came, and tells no separators where the scanner has none of its own", () => {
    const scan = readBurst(burstOf(label), usualScannerProfile, today);
    expect(scan).toMatchObject({
      barcodes: [label],
      source: "scanner",
      reading: { kind: "label" },
    });
    expect(textsOf(scan)).toEqual({ barcodes: [label] });
  });

  test("keeps the scanner's text for the separator, and tells what it means", () => {
    const typed = label.replace("\u001d", "~1");
    const scan = readBurst(burstOf(typed), profileWith({ gsTokens: ["~1"] }), today);
    expect(textsOf(scan)).toEqual({ barcodes: [typed], gsTokens: ["~1"] });
    expect(scan.reading).toMatchObject({ label: { fields: { lot: "AB-7", serial: "S9" } } });
    expect(oddOf(scan.reading).map(({ kind }) => kind)).toEqual(["separator_substituted"]);
  });

  test("is read by the places of the keys where the profile says so", () => {
    const typed = "+d2010950600013435210ABß7";
    const profile = profileWith({ keyboard: "by-position" });
    const scan = readBurst(burstOf(typed, { byPosition: label, capsLock: true }), profile, today);
    expect(scan).toMatchObject({ barcodes: [label], reading: { kind: "label" } });
  });

  test("with Caps Lock on is refused where what was typed is read", () => {
    const scan = readBurst(burstOf(label, { capsLock: true }), usualScannerProfile, today);
    expect(scan.reading).toMatchObject({ refused: { error: { detail: "caps_lock" } } });
    expect(isInverted(scan)).toBe(true);
    expect(isInverted(readBurst(burstOf(label), usualScannerProfile, today))).toBe(false);
  });

  test("of a code of the practice's own is read all the same: it has no case", () => {
    const code = makeOwnCode("container", 12);
    const typed = code.toLowerCase();
    const scan = readBurst(burstOf(typed, { capsLock: true }), usualScannerProfile, today);
    expect(scan.reading).toEqual({ kind: "container", code });
  });

  test("in which two fields may have run together is doubted, unless a camera saw it", () => {
    const typed = "]d2010950600013435210LOT717280331";
    const scan = readBurst(burstOf(typed), usualScannerProfile, today);
    expect(mayHaveRunTogether(scan)).toBe(true);
    expect(mayHaveRunTogether({ ...scan, source: "camera" })).toBe(false);
    expect(mayHaveRunTogether(readBurst(burstOf(label), usualScannerProfile, today))).toBe(false);
  });
});

test("two symbols of one label keep their order and the scanner's separators", () => {
  const first = { barcodes: ["a"], gsTokens: ["~1"] };
  expect(joinTexts(first, { barcodes: ["b"] })).toEqual({ barcodes: ["a", "b"], gsTokens: ["~1"] });
  expect(joinTexts({ barcodes: ["a"] }, { barcodes: ["b"] })).toEqual({ barcodes: ["a", "b"] });
});
