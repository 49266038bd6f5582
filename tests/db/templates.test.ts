/** Templates of trays: their parts are there, once each, and of their own practice. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { act, asAssistant, count, refusalOf } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

interface Told {
  name?: string;
  mode?: string | null;
  provisional?: string;
  location?: string;
  technique?: string;
}
const run = (text: string, values: unknown[]) =>
  act(it.app, asAssistant(it.here), (client) => client.query(text, values));
const addTemplate = (id: string, told: Told = {}) => {
  const { name = id, mode = null, provisional = "none" } = told;
  const { location = it.here.places.operatory, technique = it.here.technique } = told;
  const values = [it.here.id, id, name, technique, location, mode, provisional, it.here.assistant];
  return refusalOf(
    run("insert into tray_template values ($1, $2, $3, $4, $5, $6, $7, false, $8, now())", values),
  );
};
const addProduct = (template: string, told: { step?: string; product?: string; place?: number }) =>
  refusalOf(
    run("insert into tray_template_product values ($1, $2, $3, $4, $5)", [
      ...[it.here.id, template, told.step ?? "prime"],
      ...[told.product ?? it.here.product, told.place ?? 1],
    ]),
  );

describe("a template", () => {
  test("has a name of its own and parts that are there", async () => {
    expect(await addTemplate(newId(), { name: "Crown" })).toBe("not refused");
    expect(await addTemplate(newId(), { name: "Crown" })).toBe("tray_template_name_taken");
    expect(await addTemplate(newId(), { name: "  " })).toBe("tray_template_name_length");
    expect(await addTemplate(newId(), { mode: "total" })).toBe("tray_template_mode_known");
    expect(await addTemplate(newId(), { provisional: "wax" })).toBe(
      "tray_template_provisional_known",
    );
    const strange = "tray_template_technique_fk";
    expect(await addTemplate(newId(), { technique: newId() })).toBe(strange);
    expect(await addTemplate(newId(), { location: newId() })).toBe("tray_template_location_fk");
    // Nor a room of another practice.
    const location = it.there.places.operatory;
    expect(await addTemplate(newId(), { location })).toBe("tray_template_location_fk");
  });

  test("names a product once a step, in an order without ties, and takes them along", async () => {
    const id = newId();
    await addTemplate(id);
    expect(await addProduct(id, {})).toBe("not refused");
    expect(await addProduct(id, { place: 2 })).toBe("tray_template_product_pk");
    expect(await addProduct(id, { step: "bond", place: 21 })).toBe(
      "tray_template_product_place_range",
    );
    const unknown = { product: newId(), place: 2 };
    expect(await addProduct(id, unknown)).toBe("tray_template_product_product_fk");
    expect(await addProduct(newId(), {})).toBe("tray_template_product_template_fk");
    expect(await addProduct(id, { step: "bond" })).toBe("not refused");
    await run("delete from tray_template where practice_id = $1 and id = $2", [it.here.id, id]);
    const left = "tray_template_product where template_id = $1";
    expect(await count(it.app, left, [id])).toBe(0);
  });

  test("leaves on a tray a list by step", async () => {
    const text = "update tray set preferred = '[]' where id = $1";
    // Not the application's to change at all.
    await expect(run(text, [it.here.tray])).rejects.toMatchObject({ code: "42501" });
    const values = [it.here.id, newId(), it.here.patient, it.here.technique];
    const insert = `insert into tray (practice_id, id, patient_id, tooth, technique_id,
        location_id, appointment_at, state, created_by, created_at, preferred)
      values ($1, $2, $3, '16', $4, $5, now(), 'planned', $6, now(), '[]')`;
    const all = [...values, it.here.places.operatory, it.here.assistant];
    expect(await refusalOf(run(insert, all))).toBe("tray_preferred_by_step");
  });
});
