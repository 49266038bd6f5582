import { readFileSync } from "node:fs";
import { describe, expect, test } from "@jest/globals";
import { labelErrorKinds, readLabel, type LabelErrorKind, type ReadOptions } from "./index.ts";

type Expectation =
  | {
      ok: true;
      scheme: string;
      elements?: { ai: string; value: string }[];
      fields: object;
      warnings_include?: string[];
    }
  | {
      ok: false;
      error: {
        kind: LabelErrorKind;
        ai?: string;
        also_acceptable?: LabelErrorKind[];
        also_acceptable_ai?: string[];
      };
    };

type Vector = {
  id: string;
  title: string;
  input: string | string[];
  options: {
    reference_date: string;
    associations: "enforce" | "defer";
    gs_tokens?: string[];
    permit_zero_suppressed_gtin?: boolean;
  };
  expect: Expectation;
  source: string;
};

const fixture: { error_kinds: string[]; vectors: Vector[] } = JSON.parse(
  readFileSync(new URL("./vectors.fixture.json", import.meta.url), "utf8"),
);

function optionsOf({ options }: Vector): ReadOptions {
  return {
    today: options.reference_date,
    associations: options.associations,
    gsTokens: options.gs_tokens ?? [],
    permitZeroSuppressedGtin: options.permit_zero_suppressed_gtin ?? false,
  };
}

describe("the label vectors", () => {
  test("are all there", () => {
    expect(fixture.vectors).toHaveLength(94);
    expect([...labelErrorKinds]).toEqual(fixture.error_kinds);
  });

  test.each(fixture.vectors)("$id: $title ($source)", (vector) => {
    const result = readLabel(vector.input, optionsOf(vector));
    expect(result.raw).toBe(vector.input);
    if (vector.expect.ok) {
      const { scheme, elements = [], fields, warnings_include: warnings = [] } = vector.expect;
      expect(result).toMatchObject({ ok: true, scheme });
      if (!result.ok) return;
      expect(result.elements).toEqual(elements);
      expect(result.fields).toEqual(fields);
      expect([...new Set(result.warnings.map(({ kind }) => kind))]).toEqual(warnings);
    } else {
      const { error } = vector.expect;
      expect(result.ok).toBe(false);
      if (result.ok) return;
      expect([error.kind, ...(error.also_acceptable ?? [])]).toContain(result.error.kind);
      if (error.ai !== undefined) {
        expect([error.ai, ...(error.also_acceptable_ai ?? [])]).toContain(result.error.ai);
      }
    }
  });
});

const TODAY = "2026-06-15";
const GS = "\u001d";

describe("an error", () => {
  // The span between the markers is the one that the error must name.
  test.each([
    ["]d2010950600013435<3>", "invalid_check_digit", "01"],
    ["]d201095060001343521726<13>01", "invalid_date", "17"],
    ["]d20109506000134352172602<30>", "invalid_date", "17"],
    ["]d201095060001343521726<O>101", "invalid_character", "17"],
    ["]d2010950600013435210AB< >C", "invalid_character", "10"],
    ["]d2010950600013435210ABCDEFGHIJKLMNOPQRST<UV>", "value_too_long", "10"],
    ["]d2010950600013435217<2612>", "value_too_short", "17"],
    [`]d2010950600013435217<2612>${GS}10A`, "value_too_short", "17"],
    [`]d2010950600013435217<>${GS}10ABCDE`, "empty_value", "17"],
    [`]d2010950600013435210<>${GS}17261231`, "empty_value", "10"],
    ["]d20109506000134352<231>ABC", "unknown_ai", "231"],
    ["]d20109506000134352<#>ABC", "unknown_ai", undefined],
    [`]d2010950600013435210ABC${GS}<${GS}>21XYZ`, "doubled_separator", undefined],
    [`]d2010950600013435210ABC${GS}<10ABD>`, "conflicting_duplicate_ai", "10"],
    ["]d2<17261231>10ABC", "missing_companion_ai", "17"],
    ["]d2<0109506000134352>3712", "exclusive_ai_pair", "01"],
    ["]d201095060001343527003261231<24>60", "invalid_time", "7003"],
    ["]d20109506000134352700326123123<60>", "invalid_time", "7003"],
    ["(01)09506000134352<(19)>1", "unknown_ai", "19"],
    ["(01) <9506000134352> (10)A", "value_too_short", "01"],
    ["<]X9>0109506000134352", "unsupported_symbology", undefined],
    ["<]D2>010950600013435210abc", "symbology_case_mismatch", undefined],
    ["<]C0>0109506000134352", "symbology_mismatch", undefined],
    ["<]d2>+A123BJC5D6E71G", "symbology_mismatch", undefined],
    ["]E0<123>", "value_too_short", undefined],
    ["]E496385074<123>", "value_too_long", undefined],
    ["]E095060001343<X>2", "invalid_character", undefined],
    ["<hello>", "unrecognized_format", undefined],
    ["<=A>12345678", "unsupported_scheme", undefined],
    ["<[)>\u001e>", "unsupported_scheme", undefined],
    ["+A123BJC5D6E71<F>", "invalid_check_character", undefined],
    ["https://id.gs1.org/01/0952012345678<9>", "invalid_check_digit", "01"],
    ["https://id.gs1.org/01/09520123456788/10/A<%20>B", "invalid_character", "10"],
    ["https://id.gs1.org/01/09520123456788?17=2602<30>", "invalid_date", "17"],
    ["https://id.gs1.org/01/09520123456788?99=A<+>B", "invalid_character", "99"],
    ["https://id.gs1.org/01/09520123456788?<10=ABC>", "dl_attribute_not_allowed", "10"],
    ["https://id.gs1.org/01/09520123456788/21/1/<10/2>", "dl_key_qualifier_order", "10"],
    ["https://id.gs1.org/01/09520123456788?<999>=1", "unknown_ai", "999"],
    ["]d2401<A>", "invalid_structure", "401"],
    [`]d28004<A>${GS}10X`, "invalid_structure", "8004"],
    ["]d28007DE8937<->0044", "invalid_character", "8007"],
    ["]d28007<DE89>", "value_too_short", "8007"],
    ["]d2010950600013435210AB<\u{1f9b7}>C", "invalid_character", "10"],
    ["+A9991<\u{1f9b7}>", "invalid_character", undefined],
  ])("in %j is %s and names its span", (marked, kind, ai) => {
    const raw = marked.replace(/<|(?<!\[\))>/g, "");
    const result = readLabel(raw, { today: TODAY, associations: "enforce" });
    expect(result).toMatchObject({ ok: false, error: { kind } });
    if (result.ok) return;
    const { at, length } = result.error;
    expect(`${raw.slice(0, at)}<${raw.slice(at, at + length)}>${raw.slice(at + length)}`).toBe(
      marked,
    );
    expect(result.error.ai).toBe(ai);
  });
});
