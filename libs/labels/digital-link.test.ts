import { describe, expect, test } from "@jest/globals";
import { readLabel, type LabelResult } from "./index.ts";

const KEY = "https://id.gs1.org/01/09520123456788";

function read(raw: string, permitZeroSuppressedGtin = false): LabelResult {
  const options = { today: "2026-06-15", associations: "enforce" as const };
  return readLabel(raw, { ...options, permitZeroSuppressedGtin });
}

function elementsOf(raw: string): string {
  const result = read(raw);
  if (!result.ok) return result.error.kind;
  return result.elements.map(({ ai, value }) => `(${ai})${value}`).join("");
}

describe("a GS1 Digital Link", () => {
  // Cases follow GS1 Digital Link URI Syntax 1.4.1; those of the key search, of duplicates and of
  // attributes that belong into the path follow the published tests of the GS1 syntax engine.
  test.each([
    ["HTTPS://ID.GS1.ORG/01/09520123456788", "(01)09520123456788"],
    ["http://localhost:8080/01/09520123456788", "(01)09520123456788"],
    ["https://[2001:db8::1]/01/09520123456788", "(01)09520123456788"],
    [`${KEY}/22/2A/10/L/21/S`, "(01)09520123456788(22)2A(10)L(21)S"],
    [`${KEY}/235/T?10=L`, "(01)09520123456788(235)T(10)L"],
    ["https://a/10/20/01/09520123456788", "(01)09520123456788"],
    ["https://a/00/faux/00/006141411234567890", "(00)006141411234567890"],
    ["https://a/01/09520123456788/22/ABC+1%2d2?99=A%2fB", "(01)09520123456788(22)ABC+1-2(99)A/B"],
    [`${KEY}?&&&99=ABC&;&98=XYZ&&`, "(01)09520123456788(99)ABC(98)XYZ"],
    [`${KEY}?lone&x=1&99=ABC`, "(01)09520123456788(99)ABC"],
    [`${KEY}?#17=1`, "(01)09520123456788"],
    ["https://a/414/9520123456788/254/32a%2Fb", "(414)9520123456788(254)32a/b"],
    ["https://a/8018/123456789012345675/8019/123", "(8018)123456789012345675(8019)123"],
    ["https://a/253/1231231231232TEST5678901234567", "(253)1231231231232TEST5678901234567"],
    [
      "https://a/8004/9520614141234567?01=09520123456788",
      "(8004)9520614141234567(01)09520123456788",
    ],
  ])("%s holds %s", (raw, elements) => {
    expect(elementsOf(raw)).toBe(elements);
  });

  test.each([
    ["https://", "not_a_digital_link"],
    ["https:///01/09520123456788", "not_a_digital_link"],
    ["https://00/006141411234567890", "not_a_digital_link"],
    ["https://a$/00/006141411234567890", "not_a_digital_link"],
    ["https://a?x=/01/09520123456788", "not_a_digital_link"],
    [`${KEY}/`, "not_a_digital_link"],
    [`${KEY}/89/ABC`, "not_a_digital_link"],
    [`${KEY}/ser/ABC`, "not_a_digital_link"],
    ["https://id.gs1.org/ARHKVAdpQg", "not_a_digital_link"],
    ["https://id.gs1.org/gtin/09520123456788", "not_a_digital_link"],
    [`${KEY}/10/`, "empty_value"],
    [`${KEY}?17=`, "empty_value"],
    [`${KEY}/10/A/22/B`, "dl_key_qualifier_order"],
    [`${KEY}/235/T/10/L`, "dl_key_qualifier_order"],
    [`${KEY}/10/A/10/A`, "dl_key_qualifier_order"],
    [`${KEY}/17/261231`, "dl_key_qualifier_order"],
    ["https://a/00/006141411234567890/21/S", "dl_key_qualifier_order"],
    [`${KEY}?21=S`, "dl_attribute_not_allowed"],
    [`${KEY}?8200=x`, "dl_attribute_not_allowed"],
    [`${KEY}?99=A&99=A`, "dl_duplicate_ai"],
    [`${KEY}/10/A?10=A`, "dl_duplicate_ai"],
    [`${KEY}?01=09520123456788`, "dl_duplicate_ai"],
    [`${KEY}?999=A`, "unknown_ai"],
    [`${KEY}?37=12`, "exclusive_ai_pair"],
    [`${KEY}?12=261231`, "missing_companion_ai"],
    [`${KEY}/10/A%ZZ#`, "value ok"],
    [`${KEY}/10/%C3%A9`, "invalid_character"],
    [`${KEY}/10/%00`, "invalid_character"],
    [`${KEY}/10/A B`, "invalid_character"],
    [`${KEY}/10/\u00e9`, "invalid_character"],
    [`${KEY}/10/${"A".repeat(21)}`, "value_too_long"],
    ["https://a/01/9520123456788", "value_too_short"],
    ["]C1https://a/01/09520123456788", "symbology_mismatch"],
  ])("%s gives %s", (raw, kind) => {
    const result = read(raw);
    expect(result.ok ? "value ok" : result.error.kind).toBe(kind);
  });

  test.each(["9520123456788", "614141999996", "96385074"])(
    "takes the short GTIN %s where that is permitted",
    (gtin) => {
      expect(read(`https://a/01/${gtin}`, true)).toMatchObject({
        ok: true,
        fields: { gtin: gtin.padStart(14, "0") },
      });
      expect(read(`https://a/01/${gtin}`)).toMatchObject({ error: { kind: "value_too_short" } });
    },
  );

  test("names the span of an escaped character in the raw text", () => {
    const raw = `${KEY}/10/A%2FB%C3%A9?17=261231`;
    const at = raw.indexOf("%C3");
    expect(read(raw)).toMatchObject({ error: { kind: "invalid_character", at, length: 3 } });
  });

  test("names the check digit of a GTIN that was filled up", () => {
    const raw = "https://a/01/9520123456789";
    const error = { kind: "invalid_check_digit", at: raw.length - 1, length: 1 };
    expect(read(raw, true)).toMatchObject({ error });
  });
});
