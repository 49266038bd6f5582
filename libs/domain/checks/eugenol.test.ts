import { describe, expect, test } from "@jest/globals";
import { aPlainProduct, aStep, aTechnique, aTray, anItem, onShelf } from "../facts.fixture.ts";
import type { ProductFacts, TrayFacts } from "../facts.ts";
import type { Content, ProductKind } from "../vocabulary.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const cementStep = aStep("provisional-cement", { required: false });

function aCement(contents: readonly Content[], id = "cement"): ProductFacts {
  return aPlainProduct("provisional-cement", { id, contents });
}

function withProduct(product: ProductFacts, visit: "sealing" | "bonding" = "sealing"): TrayFacts {
  const usual = aTray();
  const step = { ...cementStep, accepts: [product.kind] as ProductKind[] };
  const steps = [...usual.technique.steps, step];
  return {
    ...usual,
    technique: aTechnique({ visit, steps }),
    items: [...usual.items, anItem(product)],
  };
}

// Eugenol cement before a self-adhesive resin cement lowers its bond: J Appl Oral Sci 2010;18(1).
describe("eugenol", () => {
  test("warns of a provisional cement with eugenol on a surface to be bonded later", () => {
    expect(getFinding(withProduct(aCement(["eugenol"])), "eugenol")).toMatchObject({
      level: "caution",
      subject: { itemId: "item-cement", stepKey: "provisional-cement" },
      numbers: { reason: "planned" },
      remedy: { code: "get-another" },
      because: [
        { what: "content", value: "eugenol", from: "ifu" },
        { what: "technique", from: "technique" },
      ],
    });
  });

  test("names a cement without eugenol where the shelf has one, never another with it", () => {
    const tray = withProduct(aCement(["eugenol"]));
    const withIt = { ...tray, shelf: [onShelf(aCement(["eugenol"]))] };
    expect(getFinding(withIt, "eugenol").remedy.code).toBe("get-another");
    const without = { ...tray, shelf: [onShelf(aCement([], "free"), { id: "c2" })] };
    expect(getFinding(without, "eugenol").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadContainerId: "c2", insteadProduct: "Product free" },
    });
  });

  test("says nothing of one without eugenol, of another kind, or at the bonding visit", () => {
    expect(countFindings(withProduct(aCement([])), "eugenol")).toBe(0);
    expect(countFindings(withProduct(aCement(["hema"])), "eugenol")).toBe(0);
    const cleaner = aPlainProduct("surface-cleaner", { contents: ["eugenol"] });
    expect(countFindings(withProduct(cleaner), "eugenol")).toBe(0);
    expect(countFindings(withProduct(aCement(["eugenol"]), "bonding"), "eugenol")).toBe(0);
  });

  const sealed = (name: string, hasEugenol: boolean): TrayFacts => ({
    ...aTray(),
    technique: aTechnique({ visit: "bonding" }),
    seals: [
      {
        tooth: "16",
        sealedOn: "2026-11-11",
        provisionalCement: { name, eugenol: hasEugenol },
      },
    ],
  });

  // A eugenol-free cement still lowered the bond on sealed dentin: J Funct Biomater 2026;17(2):98.
  test("says at the bonding visit what stood on the seal, and warns where it had eugenol", () => {
    const numbers = { tooth: "16", sealedOn: "2026-11-11" };
    expect(getFinding(sealed("Temp", true), "eugenol")).toMatchObject({
      level: "caution",
      numbers: { reason: "used", cement: "Temp", ...numbers },
      remedy: { code: "clean-surface", numbers: { tooth: "16" } },
    });
    expect(getFinding(sealed("Free", false), "eugenol")).toMatchObject({
      level: "info",
      subject: { type: "tooth", name: "16" },
      numbers: { reason: "free", cement: "Free", ...numbers },
    });
    const none = { tooth: "16", sealedOn: "2026-11-11", provisionalCement: null };
    expect(countFindings({ ...aTray(), seals: [none] }, "eugenol")).toBe(0);
  });
});
