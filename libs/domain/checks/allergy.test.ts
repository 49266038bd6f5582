import { describe, expect, test } from "@jest/globals";
import { aProduct, aTray, anItem, onShelf, primerNorth } from "../facts.fixture.ts";
import type { TrayFacts } from "../facts.ts";
import type { Content } from "../vocabulary.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

function withContents(contents: readonly Content[], allergies: readonly Content[]): TrayFacts {
  return aTray({
    patient: { allergies },
    items: [anItem(primerNorth), anItem(aProduct({ contents }))],
  });
}

// HEMA picks up almost all of those who react to (meth)acrylates: Goon et al., 310 dental staff and
// 1322 patients patch-tested.
describe("allergy", () => {
  test("stops a product that contains what the patient reacts to, and says all of it", () => {
    const facts = withContents(["tegdma", "hema", "mdp"], ["mdp", "hema", "eugenol"]);
    expect(getFinding(facts, "allergy")).toMatchObject({
      level: "stop",
      subject: { itemId: "item-bond-north", stepKey: "adhesive" },
      numbers: { contents: "hema,mdp" },
      remedy: { code: "get-another" },
      because: [
        { what: "contents", value: "hema,mdp", from: "ifu" },
        { what: "allergies", value: "mdp,hema,eugenol", from: "patient" },
      ],
    });
  });

  test("names a container without it, never another one with it", () => {
    const facts = withContents(["hema"], ["hema"]);
    const same = { ...facts, shelf: [onShelf(aProduct({ contents: ["hema"] }))] };
    expect(getFinding(same, "allergy").remedy.code).toBe("get-another");
    const other = { ...facts, shelf: [onShelf(aProduct({ id: "free" }))] };
    expect(getFinding(other, "allergy").remedy).toMatchObject({
      code: "take-instead",
      numbers: { insteadProduct: "Product free" },
    });
  });

  test("says nothing where nothing is on the list, or nothing of it is in the product", () => {
    expect(countFindings(withContents(["hema"], []), "allergy")).toBe(0);
    expect(countFindings(withContents(["mdp"], ["hema"]), "allergy")).toBe(0);
    expect(countFindings(withContents([], ["hema"]), "allergy")).toBe(0);
  });
});
