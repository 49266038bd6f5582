import { describe, expect, test } from "@jest/globals";
import { hibcCheckCharacter, readLabel, type LabelResult } from "./index.ts";

const KEY = "]C10109506000134352";

function read(scans: string[], associations: "enforce" | "defer" = "enforce"): LabelResult {
  return readLabel(scans, { today: "2026-06-15", associations });
}

function checked(data: string): string {
  return data + (hibcCheckCharacter(data) ?? "");
}

describe("several GS1 scans of one label", () => {
  test("are judged together", () => {
    const scans = ["]C11726123110ABC", KEY];
    expect(read(scans)).toMatchObject({
      ok: true,
      scheme: "gs1",
      symbology: "]C1",
      fields: { gtin: "09506000134352", lot: "ABC" },
      warnings: [],
      raw: scans,
    });
  });

  test("may name the device by an EAN-13 alone", () => {
    expect(read(["]E09506000134352", "]C11726123110ABC"])).toMatchObject({
      scheme: "gs1",
      elements: [{ ai: "01", value: "09506000134352" }, { ai: "17" }, { ai: "10" }],
      fields: { gtin: "09506000134352", lot: "ABC" },
    });
    expect(read(["]E09506000134352", "9506000134352"])).toMatchObject({
      scheme: "gtin",
      elements: [],
      fields: { gtin: "09506000134352" },
    });
  });

  test.each([
    [["]C1010950600013435210A", "]C110B"], "conflicting_duplicate_ai", 1, "10"],
    [[KEY, "]C13712"], "exclusive_ai_pair", 0, "01"],
    [["]E09506000134352", "]C10109520123456788"], "conflicting_duplicate_ai", 1, "01"],
    [["]E09506000134352", "]E0614141999996"], "value_too_short", 1, undefined],
    [["]C110A", "]C117261231"], "missing_companion_ai", 0, "10"],
    [[KEY, "]C117261331"], "invalid_date", 1, "17"],
    [[KEY, ""], "empty_input", 1, undefined],
  ])("%j are refused with %s in scan %i", (scans, kind, part, ai) => {
    const result = read(scans);
    expect(result).toMatchObject({ ok: false, error: { kind, part } });
    expect(result.ok ? undefined : result.error.ai).toBe(ai);
  });

  test("that still lack their key are warned about, scan by scan", () => {
    const result = read(["]C110A", "]C117261231"], "defer");
    expect(result.ok && result.warnings.map(({ ai, part }) => [ai, part])).toEqual([
      ["10", 0],
      ["17", 1],
    ]);
  });

  test("scanned twice are the same label", () => {
    expect(read([KEY, KEY])).toMatchObject({ ok: true, fields: { gtin: "09506000134352" } });
  });
});

describe("several HIBC scans of one label", () => {
  const primary = checked("+A99912345");
  const link = primary.slice(-1);
  const secondary = checked(`+$$3281231LOT9${link}`);
  const serial = checked(`+S4012${link}`);
  const expiry = checked(`+14D20281231${link}`);

  test("are put together in any order, supplements among them", () => {
    const fields = {
      structure: "pair",
      lic: "A999",
      pcn: "1234",
      unit_of_measure: 5,
      lot: "LOT9",
      serial: "4012",
      expiry: { date: "2028-12-31", precision: "day" },
      check_character: link,
      link_character: link,
    };
    for (const scans of [
      [primary, secondary, serial],
      [serial, expiry, secondary, primary],
      [primary, primary, serial, secondary, secondary],
    ]) {
      const result = read(scans);
      expect(result.ok && result.fields).toEqual(fields);
    }
  });

  test("of one symbol alone keep its structure", () => {
    expect(read([primary, primary])).toMatchObject({ fields: { structure: "primary" } });
    expect(read([secondary, secondary])).toMatchObject({ fields: { structure: "secondary" } });
  });

  test.each([
    [[primary, checked("+$LOTX")], "link_mismatch", 1],
    [[secondary, checked("+$LOTX")], "link_mismatch", 1],
    [[primary, checked("+A99912346")], "conflicting_duplicate", 1],
    [[primary, secondary, checked(`+$LOT8${link}`)], "conflicting_duplicate", 2],
    [[primary, serial, checked(`+S4013${link}`)], "conflicting_duplicate", 2],
    [[primary, checked("+S4012A")], "invalid_structure", 1],
    [[primary, `${secondary.slice(0, -1)}!`], "invalid_character", 1],
  ])("%j are refused with %s in scan %i", (scans, kind, part) => {
    expect(read(scans)).toMatchObject({ ok: false, error: { kind, part } });
  });

  test("do not mix with those of another standard", () => {
    expect(read([primary, KEY])).toMatchObject({
      error: { kind: "unsupported_scheme", detail: "mixed_schemes", part: 1 },
    });
  });
});

describe("no scans, or absurdly many", () => {
  test("are refused", () => {
    expect(read([])).toMatchObject({ error: { kind: "empty_input" } });
    expect(read(Array.from({ length: 65 }, () => KEY))).toMatchObject({
      error: { kind: "value_too_long", part: 64 },
    });
  });
});
