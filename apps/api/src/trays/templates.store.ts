import type { ProductKind, ProvisionalKind, ToothMode } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface TemplateRow {
  id: string;
  name: string;
  technique_id: string | null;
  technique_name: string | null;
  location_id: string;
  location_name: string;
  mode: ToothMode | null;
  provisional: ProvisionalKind;
  undercut: boolean;
  products: { stepKey: string; products: { id: string; name: string }[] }[];
}

// A template follows its technique to the version in use.
const listed = statement<TemplateRow>(
  "list-templates",
  `select t.id, t.name, n.id as technique_id, n.name as technique_name, t.location_id,
     l.name as location_name, t.mode, t.provisional, t.undercut,
     coalesce((
       select json_agg(json_build_object('stepKey', s.step_key, 'products', s.products)
         order by s.step_key)
       from (
         select u.step_key,
           json_agg(json_build_object('id', p.id, 'name', p.name) order by u.place) as products
         from tray_template_product u
         join product p on p.id = u.product_id
         where u.practice_id = t.practice_id and u.template_id = t.id
         group by u.step_key) s), '[]') as products
   from tray_template t
   join technique e on e.id = t.technique_id
   join location l on l.practice_id = t.practice_id and l.id = t.location_id
   left join lateral (
     select q.id, q.name from technique q
     where q.organisation_id = e.organisation_id and q.key = e.key and not q.retired
     order by q.version desc limit 1) n on true
   where t.practice_id = $1 and ($2::uuid is null or t.id = $2)
   order by t.name, t.id`,
);
export const listTemplates = (tx: Tx) => tx.rows(listed, [tx.actor.practiceId, null]);
export async function findTemplate(tx: Tx, id: string): Promise<TemplateRow | undefined> {
  return (await tx.rows(listed, [tx.actor.practiceId, id]))[0];
}

export interface Template {
  id: string;
  name: string;
  techniqueId: string;
  locationId: string;
  mode: ToothMode | null;
  provisional: ProvisionalKind;
  undercut: boolean;
}
const valuesOf = (tx: Tx, one: Template) => [
  ...[tx.actor.practiceId, one.id, one.name, one.techniqueId, one.locationId],
  ...[one.mode, one.provisional, one.undercut],
];

const insert = statement(
  "insert-template",
  `insert into tray_template (practice_id, id, name, technique_id, location_id, mode, provisional,
     undercut, created_by, created_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
);
export const insertTemplate = (tx: Tx, one: Template) =>
  tx.rows(insert, [...valuesOf(tx, one), tx.actor.personId, tx.at]);

const update = statement<{ id: string }>(
  "update-template",
  `update tray_template set name = $3, technique_id = $4, location_id = $5, mode = $6,
     provisional = $7, undercut = $8
   where practice_id = $1 and id = $2 returning id`,
);
/** False where there is no such template. */
export const updateTemplate = async (tx: Tx, one: Template): Promise<boolean> =>
  (await tx.rows(update, valuesOf(tx, one))).length === 1;

const noProducts = statement(
  "remove-template-products",
  "delete from tray_template_product where practice_id = $1 and template_id = $2",
);
const products = statement(
  "insert-template-products",
  `insert into tray_template_product (practice_id, template_id, step_key, product_id, place)
   select $1, $2, o.step_key, o.product_id, o.place
   from jsonb_to_recordset($3::jsonb) as o(step_key text, product_id uuid, place integer)`,
);
export interface StepProducts {
  stepKey: string;
  productIds: readonly string[];
}
/** The products of a template anew; earlier ones are preferred to later ones. */
export async function putTemplateProducts(
  tx: Tx,
  id: string,
  told: readonly StepProducts[],
): Promise<void> {
  const rows = told.flatMap(({ stepKey, productIds }) =>
    productIds.map((product, index) => ({
      step_key: stepKey,
      product_id: product,
      place: index + 1,
    })),
  );
  await tx.rows(noProducts, [tx.actor.practiceId, id]);
  await tx.rows(products, [tx.actor.practiceId, id, JSON.stringify(rows)]);
}

const kinds = statement<{ id: string; kind: ProductKind }>(
  "product-kinds",
  "select id, kind from product where organisation_id = $1 and id = any($2)",
);
export const listProductKinds = (tx: Tx, ids: readonly string[]) =>
  tx.rows(kinds, [tx.actor.organisationId, ids]);

const removal = statement<{ name: string }>(
  "remove-template",
  "delete from tray_template where practice_id = $1 and id = $2 returning name",
);
/** What it was called; undefined where there is none. */
export async function removeTemplate(tx: Tx, id: string): Promise<string | undefined> {
  return (await tx.rows(removal, [tx.actor.practiceId, id]))[0]?.name;
}
