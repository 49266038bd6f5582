import type { ExcursionView, OpenExcursion, ProductStock } from "#contracts/keeping";
import { statement, type Tx } from "../db/transaction.ts";
import { usesLeft } from "../stock/uses-left.ts";

interface ExcursionRow {
  id: string;
  location_id: string;
  location_name: string;
  from_at: Date;
  to_at: Date;
  lowest_c: number | null;
  highest_c: number | null;
  note: string;
  opened_by: string;
  opened_at: Date;
  products: ExcursionView["products"];
  resolved_by: string | null;
  resolved_at: Date | null;
  resolution: string | null;
}
// It came before the excursion was over, and left only after it had begun.
const stoodThere = `(
  select count(*)::int as containers, c.product_id from container_now c
  where c.practice_id = x.practice_id and not c.outside and exists (
    select 1 from movement m
    where m.practice_id = x.practice_id and m.container_id = c.id
      and m.to_location_id = x.location_id and m.occurred_at < x.to_at and not exists (
        select 1 from movement n
        where n.practice_id = x.practice_id and n.container_id = c.id
          and n.from_location_id = x.location_id and n.recorded_at > m.recorded_at
          and n.occurred_at <= x.from_at))
  group by c.product_id)`;
const products = `(
  select coalesce(json_agg(json_build_object('id', p.id, 'name', p.name,
      'containers', s.containers, 'storageMinC', p.storage_min_c,
      'storageMaxC', p.storage_max_c) order by p.name), '[]')
  from ${stoodThere} s join product p on p.id = s.product_id)`;
const listed = statement<ExcursionRow>(
  "list-excursions",
  `select x.id, x.location_id, w.name as location_name, x.from_at, x.to_at, x.lowest_c,
     x.highest_c, x.note, o.display_name as opened_by, x.opened_at, ${products} as products,
     r.display_name as resolved_by, x.resolved_at, x.resolution
   from storage_excursion x
   join location w on w.practice_id = x.practice_id and w.id = x.location_id
   join person o on o.id = x.opened_by
   left join person r on r.id = x.resolved_by
   where x.practice_id = $1 and ($2::uuid is null or x.id = $2)
   order by x.resolved_at is not null, x.from_at desc, x.id limit 500`,
);
/** Those that nobody has settled first, then the latest. */
export const listExcursions = async (tx: Tx): Promise<ExcursionView[]> =>
  (await tx.rows(listed, [tx.actor.practiceId, null])).map(viewOf);
export async function findExcursion(tx: Tx, id: string): Promise<ExcursionView | undefined> {
  return (await tx.rows(listed, [tx.actor.practiceId, id])).map(viewOf)[0];
}

const viewOf = (row: ExcursionRow): ExcursionView => ({
  id: row.id,
  location: { id: row.location_id, name: row.location_name },
  from: row.from_at.toISOString(),
  to: row.to_at.toISOString(),
  lowestC: row.lowest_c,
  highestC: row.highest_c,
  note: row.note,
  openedBy: row.opened_by,
  openedAt: row.opened_at.toISOString(),
  containers: row.products.reduce((sum, { containers }) => sum + containers, 0),
  products: row.products,
  resolved:
    row.resolved_by !== null && row.resolved_at !== null
      ? { by: row.resolved_by, at: row.resolved_at.toISOString(), resolution: row.resolution ?? "" }
      : null,
});

const opening = statement(
  "insert-excursion",
  `insert into storage_excursion (practice_id, id, location_id, from_at, to_at, lowest_c, highest_c,
     note, opened_by, opened_at) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)`,
);
export const insertExcursion = (tx: Tx, id: string, one: OpenExcursion) => {
  const { practiceId, personId } = tx.actor;
  const span = [one.locationId, one.from, one.to, one.lowestC, one.highestC, one.note];
  return tx.rows(opening, [practiceId, id, ...span, personId, tx.at]);
};

const settling = statement<{ id: string }>(
  "resolve-excursion",
  `update storage_excursion set resolved_by = $3, resolved_at = $4, resolution = $5
   where practice_id = $1 and id = $2 and resolved_at is null returning id`,
);
/** False where it is settled already. */
export async function resolveExcursion(tx: Tx, id: string, resolution: string): Promise<boolean> {
  const { practiceId, personId } = tx.actor;
  return (await tx.rows(settling, [practiceId, id, personId, tx.at, resolution])).length === 1;
}

const stock = statement<ProductStock>(
  "find-product-stock",
  `select s.reorder_uses as "reorderUses",
          case when p.uses_per_container is not null then ${usesLeft("p")} end as "usesLeft"
   from product p
   left join product_stock_rule s on s.practice_id = $1 and s.product_id = p.id
   where p.organisation_id = $3 and p.id = $2`,
);
export async function findProductStock(tx: Tx, productId: string) {
  const { practiceId, organisationId } = tx.actor;
  return (await tx.rows(stock, [practiceId, productId, organisationId]))[0];
}

const setting = statement(
  "set-reorder-point",
  `insert into product_stock_rule (practice_id, product_id, reorder_uses) values ($1, $2, $3)
   on conflict on constraint product_stock_rule_pk do update
     set reorder_uses = excluded.reorder_uses`,
);
const taking = statement(
  "remove-reorder-point",
  "delete from product_stock_rule where practice_id = $1 and product_id = $2",
);
/** `null` takes the point away. */
export const setReorderPoint = (tx: Tx, productId: string, uses: number | null) =>
  uses === null
    ? tx.rows(taking, [tx.actor.practiceId, productId])
    : tx.rows(setting, [tx.actor.practiceId, productId, uses]);
