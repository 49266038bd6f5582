import { expect, test } from "@jest/globals";
import type { Tray } from "./columns.ts";
import {
  bodyOfDraft,
  draftOf,
  draftOfTray,
  emptyDraft,
  toggleProduct,
  type TemplateDraft,
} from "./template-draft.ts";
import type { Technique, Template } from "./visit-plan.ts";

const stepOf = (key: string, modes: string[] | null) => ({
  key,
  accepts: ["etchant"],
  when: modes === null ? null : { modes, provisional: null, undercut: null },
});
const technique = {
  id: "t2",
  key: "seal",
  steps: [stepOf("etch", ["etch-and-rinse"]), stepOf("bond", null)],
} as unknown as Technique;
const draft = (facts: Partial<TemplateDraft> = {}): TemplateDraft => ({
  ...emptyDraft,
  name: " Crowns ",
  techniqueId: "t2",
  locationId: "l",
  ...facts,
});

test("a product is put last, and taken out by a second tap", () => {
  const first = toggleProduct(draft(), "etch", "a");
  const both = toggleProduct(draft({ products: first }), "etch", "b");
  expect(both).toEqual({ etch: ["a", "b"] });
  expect(toggleProduct(draft({ products: both }), "etch", "a")).toEqual({ etch: ["b"] });
});

test("only what the technique has is sent", () => {
  const products = { etch: ["a"], bond: [], gone: ["b"] };
  expect(bodyOfDraft(draft({ products, mode: "self-etch" }), technique)).toEqual({
    ...{ name: "Crowns", techniqueId: "t2", locationId: "l", mode: "self-etch" },
    ...{ provisional: "none", undercut: false },
    products: [{ stepKey: "etch", productIds: ["a"] }],
  });
  const plain = { ...technique, steps: [stepOf("bond", null)] } as unknown as Technique;
  expect(bodyOfDraft(draft({ products, mode: "self-etch" }), plain)).toMatchObject({
    mode: null,
    products: [],
  });
});

test("one whose technique is out of use asks for another", () => {
  const template: Template = {
    ...{ id: "m", name: "Crowns", technique: null, location: { id: "l", name: "Room" } },
    ...{ mode: null, provisional: "resin", undercut: false },
    products: [{ stepKey: "etch", products: [{ id: "a", name: "Etch" }] }],
  };
  expect(draftOf(template)).toMatchObject({ techniqueId: "", products: { etch: ["a"] } });
});

test("one made of a tray takes what stands on it, in the technique's version in use", () => {
  const item = (stepKeys: string[], id: string | null) => ({
    stepKeys,
    container: id === null ? null : { product: { id } },
  });
  const tray = {
    technique: { id: "t1", key: "seal" },
    location: { id: "l" },
    teeth: [{ tooth: "16", mode: "etch-and-rinse", provisional: "resin", undercut: true }],
    items: [item(["etch"], "a"), item(["etch", "bond"], "b"), item(["etch"], "a"), item([], null)],
  } as unknown as Tray;
  expect(draftOfTray(tray, [technique])).toEqual({
    ...{ name: "", techniqueId: "t2", locationId: "l" },
    ...{ mode: "etch-and-rinse", provisional: "resin", undercut: true },
    products: { etch: ["a", "b"], bond: ["b"] },
  });
  expect(draftOfTray(tray, []).techniqueId).toBe("");
});
