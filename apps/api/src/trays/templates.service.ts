import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { SaveTemplate, TemplateView } from "#contracts/templates";
import { findTechnique } from "../catalogue/catalogue.store.ts";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { findLocation } from "../stock/stock.store.ts";
import * as store from "./templates.store.ts";

/** Templates of trays: what a practice sets out time and again. */
@Injectable()
export class TemplatesService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listTemplates(call: Call<"listTemplates">): Promise<Answer<"listTemplates">> {
    return inRead(this.db, call, async (tx) => ({
      templates: (await store.listTemplates(tx)).map(templateView),
    }));
  }

  addTemplate(call: Call<"addTemplate">): Promise<TemplateView> {
    return inCommand(this.db, call, async (tx) => {
      const { products, ...told } = await readTemplate(tx, call.body);
      const id = newId();
      await store.insertTemplate(tx, { ...told, id });
      await store.putTemplateProducts(tx, id, products);
      tx.audit("template-added", `template:${id}`, call.body);
      return templateView((await store.findTemplate(tx, id))!);
    });
  }

  changeTemplate(call: Call<"changeTemplate">): Promise<TemplateView> {
    const { templateId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const { products, ...told } = await readTemplate(tx, call.body);
      if (!(await store.updateTemplate(tx, { ...told, id }))) throw notFound("template");
      await store.putTemplateProducts(tx, id, products);
      tx.audit("template-changed", `template:${id}`, call.body);
      return templateView((await store.findTemplate(tx, id))!);
    });
  }

  removeTemplate(call: Call<"removeTemplate">): Promise<Answer<"removeTemplate">> {
    const { templateId: id } = call.params;
    return inCommand(this.db, call, async (tx) => {
      const name = await store.removeTemplate(tx, id);
      if (name === undefined) throw notFound("template");
      tx.audit("template-removed", `template:${id}`, { name });
      return { done: true as const };
    });
  }
}

/** A template whose parts are there and whose products the steps take. */
async function readTemplate(tx: Tx, told: SaveTemplate): Promise<SaveTemplate> {
  const place = await findLocation(tx, told.locationId);
  if (place?.kind !== "operatory") throw notFound("operatory");
  const technique = await findTechnique(tx, told.techniqueId);
  if (!technique || technique.retired) throw notFound("technique");
  const ids = told.products.flatMap(({ productIds }) => productIds);
  const kinds = new Map((await store.listProductKinds(tx, ids)).map(({ id, kind }) => [id, kind]));
  for (const [index, { stepKey, productIds }] of told.products.entries()) {
    const step = technique.steps.find(({ key }) => key === stepKey);
    if (step === undefined) throw misfit(index, `the technique has no step '${stepKey}'`);
    for (const productId of productIds) {
      const kind = kinds.get(productId);
      if (kind === undefined) throw notFound("product");
      if (!step.accepts.includes(kind)) throw misfit(index, `“${step.name}” takes no ${kind}`);
    }
  }
  return told;
}

const misfit = (index: number, message: string) =>
  new Problem("invalid-request", `Correct the products: ${message}.`, {
    errors: [{ path: `/body/products/${index}`, message }],
  });

const templateView = (row: store.TemplateRow): TemplateView => ({
  id: row.id,
  name: row.name,
  technique:
    row.technique_id === null || row.technique_name === null
      ? null
      : { id: row.technique_id, name: row.technique_name },
  location: { id: row.location_id, name: row.location_name },
  mode: row.mode,
  provisional: row.provisional,
  undercut: row.undercut,
  products: row.products,
});
