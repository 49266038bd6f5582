import { describe, expect, test } from "@jest/globals";
import { catalogueDe } from "#texts/screens-catalogue-de";
import { catalogueEn } from "#texts/screens-catalogue-en";
import { listChanged, sayFact, type ProductInput } from "./facts.ts";
import { isIdentifier, tidyIdentifier } from "./identifier.ts";
import { readProductForm, solventsKnownOf } from "./product-input.ts";

function formOf(entries: readonly [string, string][]): FormData {
  const data = new FormData();
  for (const [name, value] of entries) data.append(name, value);
  return data;
}

const bare: ProductInput = readProductForm(
  formOf([
    ["name", "Alder Primer"],
    ["kind", "primer"],
  ]),
  "",
);

describe("the form of a product", () => {
  test("an empty field is not stated, never zero", () => {
    expect(bare).toEqual({
      name: "Alder Primer",
      labeler: "",
      kind: "primer",
      solvents: null,
      strategy: null,
      systemId: null,
      contents: [],
      inUseLife: null,
      applicationSeconds: null,
      airDrySeconds: null,
      cureSeconds: null,
      radiantExposureJCm2: null,
      warmUpMinutes: null,
      dropLifeSeconds: null,
      fillerPercent: null,
      modulusGpa: null,
      excursionLevel: "caution",
      storageMinC: null,
      storageMaxC: null,
      singleUse: false,
      usesPerContainer: null,
      ifuVersion: "",
    });
  });

  test("a zero that was typed stays a zero", () => {
    expect(readProductForm(formOf([["airDrySeconds", "0"]]), "").airDrySeconds).toBe(0);
  });

  test("no solvent and solvents not stated are two things", () => {
    const solventsOf = (...entries: [string, string][]) =>
      readProductForm(formOf(entries), "").solvents;
    expect(solventsOf(["solventsKnown", "none"])).toEqual([]);
    expect(solventsOf(["solventsKnown", "unknown"])).toBeNull();
    expect(solventsOf(["solventsKnown", "some"])).toBeNull();
    expect(
      solventsOf(["solventsKnown", "some"], ["solvents", "water"], ["solvents", "ethanol"]),
    ).toEqual(["ethanol", "water"]);
    expect([null, [], ["water" as const]].map(solventsKnownOf)).toEqual([
      "unknown",
      "none",
      "some",
    ]);
  });

  test("an in-use life has its unit, a system its id, a tick its yes", () => {
    const input = readProductForm(
      formOf([
        ["inUseCount", "6"],
        ["inUseUnit", "month"],
        ["singleUse", "on"],
        ["radiantExposureJCm2", "12.5"],
      ]),
      "s1",
    );
    expect(input).toMatchObject({
      inUseLife: { count: 6, unit: "month" },
      systemId: "s1",
      singleUse: true,
      radiantExposureJCm2: 12.5,
    });
  });
});

describe("facts in words", () => {
  const shown = { ...bare, systemName: null };
  const en = { t: catalogueEn, language: "en" } as const;
  const de = { t: catalogueDe, language: "de" } as const;

  test("what is not stated has no words", () => {
    expect(sayFact("solvents", shown, en)).toBeNull();
    expect(sayFact("airDrySeconds", shown, en)).toBeNull();
    expect(sayFact("storage", shown, en)).toBeNull();
  });

  test("that there is none is said", () => {
    expect(sayFact("solvents", { ...shown, solvents: [] }, en)).toBe("no solvent");
    expect(sayFact("airDrySeconds", { ...shown, airDrySeconds: 0 }, en)).toBe("0 s");
  });

  test("numbers are written as the language writes them", () => {
    const product = { ...shown, radiantExposureJCm2: 12.5, storageMinC: 2, storageMaxC: 25 };
    expect(sayFact("radiantExposureJCm2", product, en)).toBe("12.5 J/cm²");
    expect(sayFact("radiantExposureJCm2", product, de)).toBe("12,5 J/cm²");
    expect(sayFact("storage", product, de)).toBe("2 bis 25 °C");
    expect(sayFact("storage", { ...product, storageMaxC: null }, en)).toBe("2 °C or above");
    const life = { count: 1, unit: "month" } as const;
    expect(sayFact("inUseLife", { ...shown, inUseLife: life }, de)).toBe("1 Monat");
  });

  test("only what somebody changed is listed, from what to what", () => {
    const after = { ...shown, airDrySeconds: 10, solvents: [] };
    expect(listChanged({ before: shown, after }, en)).toEqual([
      { key: "solvents", from: "not stated", to: "no solvent" },
      { key: "airDrySeconds", from: "not stated", to: "10 s" },
    ]);
    expect(listChanged({ before: shown, after: { ...shown } }, en)).toEqual([]);
  });
});

describe("an identifier that was typed", () => {
  const unit = { packLevel: "unit", containers: 1 } as const;
  // GTINs of the prefix 952, which GS1 keeps for demonstrations.
  test("a GTIN is kept with 14 digits, spaces and hyphens do no harm", () => {
    const tidy = tidyIdentifier({ scheme: "gs1-gtin", value: "9 520000-001018", ...unit });
    expect(tidy.value).toBe("09520000001018");
    expect(isIdentifier(tidy)).toBe(true);
  });

  test("a GTIN whose check digit does not fit is none", () => {
    const tidy = tidyIdentifier({ scheme: "gs1-gtin", value: "9520000001019", ...unit });
    expect(isIdentifier(tidy)).toBe(false);
  });

  test("an HIBC keeps its letters, in capitals", () => {
    const tidy = tidyIdentifier({ scheme: "hibc", value: "a999hc10", ...unit });
    expect(tidy.value).toBe("A999HC10");
    expect(isIdentifier(tidy)).toBe(true);
    expect(isIdentifier({ ...tidy, value: "" })).toBe(false);
  });
});
