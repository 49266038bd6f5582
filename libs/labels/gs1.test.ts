import { describe, expect, test } from "@jest/globals";
import { encodeElementString, readLabel, type LabelResult } from "./index.ts";

const GS = "\u001d";
const GTIN = "0109506000134352";

function read(raw: string, gsTokens: readonly string[] = []): LabelResult {
  return readLabel(raw, { today: "2026-06-15", associations: "enforce", gsTokens });
}

describe("an element string", () => {
  test("knows the separators it needs and does not need when written", () => {
    const elements = [
      { ai: "01", value: "09506000134352" },
      { ai: "7003", value: "2612311200" },
      { ai: "10", value: "ABC" },
      { ai: "17", value: "261231" },
      { ai: "21", value: "S1" },
    ];
    const text = encodeElementString(elements);
    expect(text).toBe(`${GTIN}70032612311200${GS}10ABC${GS}1726123121S1`);
    expect(read(text)).toMatchObject({ ok: true, elements });
  });

  test.each([
    ["310", "0", "001250", "1250", "kg"],
    ["310", "5", "001250", "0.01250", "kg"],
    ["315", "3", "000005", "0.005", "l"],
    ["356", "2", "012345", "123.45", "tr oz"],
  ])("measures with (%s%s) %s as %s %s", (family, decimals, value, decimal, unit) => {
    const ai = family + decimals;
    expect(read(`]d2${GTIN}${ai}${value}`)).toMatchObject({
      ok: true,
      fields: { measures: [{ ai, decimal, unit }] },
    });
  });

  test.each(["{GS}", "[GS]", "^]", "\u241d", "|"])("takes %s for a separator", (token) => {
    const raw = `]d2${GTIN}10ABC${token}17261231${token}21S`;
    const result = read(raw);
    expect(result).toMatchObject({ ok: true, fields: { lot: "ABC", serial: "S" }, raw });
    const spans = result.ok ? result.warnings.map(({ at, length }) => [at, length]) : [];
    expect(spans).toEqual([
      [24, token.length],
      [32 + token.length, token.length],
    ]);
  });

  test("names spans of the raw text behind a substituted separator", () => {
    const raw = `]d2${GTIN}10ABC{GS}17261331`;
    expect(read(raw)).toMatchObject({
      error: { kind: "invalid_date", at: raw.indexOf("1331"), length: 2 },
    });
  });

  test("finds elements behind a substituted separator that comes first", () => {
    expect(read(`{GS}${GTIN}10A`)).toMatchObject({ ok: true, fields: { lot: "A" } });
  });

  test.each(["~1", "#", "<GS>", "@@"])("takes %s for a separator only by profile", (token) => {
    const raw = `]d2${GTIN}10ABC${token}17261231`;
    expect(read(raw, [token])).toMatchObject({
      ok: true,
      fields: { lot: "ABC", expiry: { date: "2026-12-31" } },
      warnings: [{ kind: "separator_substituted" }],
    });
    const without = read(raw);
    expect(without.ok && without.fields.lot === "ABC").toBe(false);
  });

  test("still takes the defaults, and real separators, under a profile", () => {
    expect(read(`]d2${GTIN}10A${GS}21B{GS}240C`, ["~1"])).toMatchObject({ ok: true });
  });

  test("asks to look at a lot that contains a written separator", () => {
    expect(read(`]d2${GTIN}10ABC<GS>17261231`)).toMatchObject({
      fields: { lot: "ABC<GS>17261231" },
      warnings: [
        { kind: "separator_suspected", at: 24, length: 4, ai: "10" },
        { kind: "separator_suspected", at: 28, length: 8, ai: "10" },
      ],
    });
  });

  test("asks to look at a lot that ends like the expiry that the label lacks", () => {
    expect(read(`]d2${GTIN}10ABC17261231`)).toMatchObject({
      fields: { lot: "ABC17261231" },
      warnings: [{ kind: "separator_suspected", at: 24, length: 8, ai: "10" }],
    });
    expect(read(`]d2${GTIN}1726123110ABC17261231`)).toMatchObject({ warnings: [] });
    expect(read(`]d2${GTIN}10ABC17261331`)).toMatchObject({ warnings: [] });
  });

  test("tolerates one separator in front, with a warning, and no second one", () => {
    expect(read(`]d2${GS}${GTIN}`)).toMatchObject({ warnings: [{ kind: "leading_separator" }] });
    const doubled = { error: { kind: "doubled_separator" } };
    expect(read(`]d2${GS}${GS}${GTIN}`)).toMatchObject(doubled);
    expect(read(`${GS}${GS}${GTIN}`)).toMatchObject(doubled);
    expect(read(`]d2${GTIN}10A${GS}${GS}`)).toMatchObject(doubled);
  });

  test.each([
    ["\u00e0\u00e9\u00e0\u00e7\u00e8\u00e8", "keyboard_layout"],
    ['&&&(&"', "keyboard_layout"],
  ])("typed on French keys as %s is refused with a hint", (raw, detail) => {
    expect(read(raw)).toMatchObject({ error: { kind: "unrecognized_format", detail } });
  });

  test.each(["01095060001343521", `${GTIN}${GTIN}`, "17261231171"])(
    "of digits alone, %s, is not mistaken for a GTIN",
    (raw) => {
      const result = read(raw);
      expect(result.ok ? result.scheme : result.error.kind).not.toBe("gtin");
    },
  );

  test("of 8 digits is a GTIN and nothing else, though it would pass as a date", () => {
    expect(read("17261231")).toMatchObject({ error: { kind: "invalid_check_digit" } });
  });

  test("a label longer than any symbol is refused at once", () => {
    const raw = `]d2${GTIN}10${"A".repeat(9000)}`;
    expect(read(raw)).toMatchObject({
      error: { kind: "value_too_long", at: 8192, length: raw.length - 8192 },
    });
  });
});

describe("a printed label in brackets", () => {
  test.each([
    ["(01)09506000134352(10)AB(C)D", "AB(C)D", []],
    ["(01)09506000134352(10)AB(19)D", "AB(19)D", ["brackets_in_value"]],
    ["  (01)  09506000134352  (10)  ABC  ", "ABC", []],
    ["(10)A(B(17)261231(01)09506000134352", "A(B", []],
  ])("%j has the lot %s", (raw, lot, warnings) => {
    const result = read(raw);
    expect(result).toMatchObject({ ok: true, fields: { lot } });
    expect(result.ok && result.warnings.map(({ kind }) => kind)).toEqual(warnings);
  });

  test.each([
    ["(01)09506000134352(10)", "empty_value"],
    ["(01)0950600 0134352", "value_too_long"],
    ["(01)09506000134352(10)A B", "invalid_character"],
    ["(99", "unrecognized_format"],
    ["(1)2", "unrecognized_format"],
    ["(00001)2", "unrecognized_format"],
    ["(1234)2", "unknown_ai"],
  ])("%j is refused with %s", (raw, kind) => {
    expect(read(raw)).toMatchObject({ ok: false, error: { kind } });
  });

  test("is understood behind a GS1 symbology identifier", () => {
    expect(read("]C1(01)09506000134352")).toMatchObject({ ok: true, symbology: "]C1" });
  });
});
