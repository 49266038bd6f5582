/** Templates of trays: kept, followed to the technique in use, and what they prefer on a tray. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker, type MadeProduct } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
let products: [MadeProduct, MadeProduct];
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  products = [await make.product("bonding-cement"), await make.product("bonding-cement")];
});
afterAll(() => it.close());

type Body = BodyOf<"addTemplate">;
const bodyOf = (told: Partial<Body> = {}): Body => ({
  name: make.name("Template"),
  techniqueId: make.techniques["bond-restoration"]!,
  locationId: make.places.operatory,
  products: [{ stepKey: "cement", productIds: [products[1].id] }],
  ...told,
});
const add = (told: Partial<Body> = {}) =>
  it.practice.assistant.call("addTemplate", { body: bodyOf(told) });
const change = (templateId: string, told: Partial<Body> = {}) =>
  it.practice.office.call("changeTemplate", { params: { templateId }, body: bodyOf(told) });
const list = async () => (await it.practice.dentist.call("listTemplates")).ok.templates;

describe("a template", () => {
  test("keeps technique, room, what is usual of a tooth, and the products of its steps", async () => {
    const [first, second] = products;
    const { ok } = await add({
      mode: "self-etch",
      provisional: "resin",
      undercut: true,
      products: [{ stepKey: "cement", productIds: [second.id, first.id] }],
    });
    expect(ok).toMatchObject({
      technique: { id: make.techniques["bond-restoration"] },
      location: { name: "Operatory 1" },
      ...{ mode: "self-etch", provisional: "resin", undercut: true },
    });
    expect(ok.products).toEqual([
      {
        stepKey: "cement",
        products: [second, first].map(({ id, name }) => ({ id, name })),
      },
    ]);
    expect(await list()).toContainEqual(ok);
  });

  test("is changed and removed", async () => {
    const { id } = (await add()).ok;
    const name = make.name("Changed");
    const { ok } = await change(id, { name, products: [] });
    expect(ok).toMatchObject({ id, name, products: [] });
    const params = { templateId: id };
    expect((await it.practice.assistant.call("removeTemplate", { params })).status).toBe(200);
    expect((await list()).map((one) => one.id)).not.toContain(id);
    expect((await it.practice.assistant.call("removeTemplate", { params })).problem).toBe(
      "not-found",
    );
    expect((await change(id)).problem).toBe("not-found");
  });

  test("has a name of its own, and parts that are there", async () => {
    const { name } = (await add()).ok;
    expect((await add({ name })).problem).toBe("name-taken");
    const other = (await add()).ok;
    expect((await change(other.id, { name })).problem).toBe("name-taken");
    expect((await add({ techniqueId: newId() })).problem).toBe("not-found");
    expect((await add({ locationId: make.places.store })).problem).toBe("not-found");
    const unknown = [{ stepKey: "cement", productIds: [newId()] }];
    expect((await add({ products: unknown })).problem).toBe("not-found");
    expect((await add({ name: " " })).problem).toBe("invalid-request");
  });

  test("prefers only what its steps take", async () => {
    const primer = await make.usualProduct("primer");
    const wrong = await add({ products: [{ stepKey: "cement", productIds: [primer.id] }] });
    expect(wrong.problem).toBe("invalid-request");
    expect(wrong.body).toMatchObject({ errors: [{ path: "/body/products/0" }] });
    const nowhere = await add({ products: [{ stepKey: "polish", productIds: [primer.id] }] });
    expect(nowhere.text).toContain("no step 'polish'");
    const twice = [products[0].id, products[0].id];
    const told = await add({ products: [{ stepKey: "cement", productIds: twice }] });
    expect(told.problem).toBe("invalid-request");
  });

  test("follows its technique to the version in use, and says when that is out of use", async () => {
    const body = {
      name: make.name("Technique"),
      visit: "bonding" as const,
      steps: [{ key: "cement", name: "Cement", accepts: ["bonding-cement" as const] }],
    };
    const first = (await it.practice.dentist.call("addTechnique", { body })).ok;
    const { id } = (await add({ techniqueId: first.id })).ok;
    const params = { techniqueId: first.id };
    const changed = { name: make.name("Renamed"), steps: body.steps };
    const next = (await it.practice.dentist.call("changeTechnique", { params, body: changed })).ok;
    const found = async () => (await list()).find((one) => one.id === id)?.technique;
    expect(await found()).toEqual({ id: next.id, name: changed.name });
    await it.practice.dentist.call("retireTechnique", { params: { techniqueId: next.id } });
    expect(await found()).toBeNull();
  });
});

describe("a tray planned from a template", () => {
  const suggested = async (trayId: string) => {
    const { ok } = await it.practice.assistant.call("getTray", { params: { trayId } });
    return ok.suggestions["cement"]!.map(({ containerId }) => containerId);
  };

  test("is suggested its products first, and of each what ends first", async () => {
    const [usual, preferred] = products;
    const early = (await make.received(usual, { useBy: "2026-09-30" })).first.id;
    const late = (await make.received(preferred, { useBy: "2028-09-30" })).first.id;
    const sooner = (await make.received(preferred, { useBy: "2027-09-30" })).first.id;
    const { id: templateId } = (await add()).ok;
    const technique = "bond-restoration";
    const plain = await make.tray({ technique });
    expect(await suggested(plain.id)).toEqual([early, sooner, late]);
    const { id } = await make.tray({ technique, templateId });
    expect(await suggested(id)).toEqual([sooner, late, early]);
    // What it preferred then stays, whatever becomes of the template.
    await it.practice.office.call("removeTemplate", { params: { templateId } });
    expect(await suggested(id)).toEqual([sooner, late, early]);
  });

  test("is never suggested what the check stops", async () => {
    const allergen = await make.product("bonding-cement", { contents: ["hema"] });
    const { first } = await make.received(allergen);
    const wish = [{ stepKey: "cement", productIds: [allergen.id] }];
    const { id: templateId } = (await add({ products: wish })).ok;
    const { id, patient } = await make.tray({ technique: "bond-restoration", templateId });
    expect((await suggested(id))[0]).toBe(first.id);
    const params = { patientId: patient.id };
    const body = { allergies: ["hema" as const] };
    await it.practice.assistant.call("changeAllergies", { params, body });
    expect(await suggested(id)).not.toContain(first.id);
  });

  test("needs a template that is there", async () => {
    const body = {
      chartNumber: make.name("C"),
      teeth: [{ tooth: "16" }],
      techniqueId: make.techniques["bond-restoration"]!,
      locationId: make.places.operatory,
      appointmentAt: "2026-06-15T09:00:00.000Z",
      templateId: newId(),
    };
    expect((await it.practice.assistant.call("planTray", { body })).problem).toBe("not-found");
  });
});
