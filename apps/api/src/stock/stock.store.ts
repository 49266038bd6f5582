import type { LocationView } from "#contracts/people";
import type { BalanceQuery, ContainerQuery, ScanAnswer } from "#contracts/stock";
import type { LocationKind } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";
import { LocationRow } from "../db/tables.ts";
import { containerColumns, isWithdrawn, type ContainerRow } from "./container-row.ts";

const withWithdrawn = `select ${containerColumns}, ${isWithdrawn} as withdrawn
  from container_now c`;

const byId = statement<ContainerRow>(
  "find-container",
  `${withWithdrawn} where c.practice_id = $1 and c.id = $2`,
);
export async function findContainer(tx: Tx, id: string): Promise<ContainerRow | undefined> {
  return (await tx.rows(byId, [tx.actor.practiceId, id]))[0];
}

const byCode = statement<ContainerRow>(
  "find-container-by-code",
  `${withWithdrawn} where c.practice_id = $1 and c.code = $2`,
);
export async function findContainerByCode(tx: Tx, code: string): Promise<ContainerRow | undefined> {
  return (await tx.rows(byCode, [tx.actor.practiceId, code]))[0];
}

const placeByCode = statement<LocationView>(
  "find-place-by-code",
  "select id, name, kind, outside from location where practice_id = $1 and code = $2",
);
export async function findPlaceByCode(tx: Tx, code: string): Promise<LocationView | undefined> {
  return (await tx.rows(placeByCode, [tx.actor.practiceId, code]))[0];
}

type NamedTray = NonNullable<ScanAnswer["tray"]>;
const trayByCode = statement<NamedTray>(
  "find-tray-by-code",
  `select t.id, p.chart_number as "chartNumber", t.tooth
   from tray t join patient p on p.practice_id = t.practice_id and p.id = t.patient_id
   where t.practice_id = $1 and t.code = $2`,
);
export async function findTrayByCode(tx: Tx, code: string): Promise<NamedTray | undefined> {
  return (await tx.rows(trayByCode, [tx.actor.practiceId, code]))[0];
}

// Of several alike the label means any: open before sealed, here before elsewhere in the practice.
const byLabel = statement<ContainerRow>(
  "find-containers-by-label",
  `${withWithdrawn}
   where c.practice_id = $1 and c.product_id = $2
     and ($3::text is null or c.lot = $3) and ($4::text is null or c.serial = $4)
   order by c.outside,
     c.location_id is distinct from
       (select t.location_id from tray t where t.practice_id = $1 and t.id = $5),
     c.location_kind = 'quarantine',
            c.opened_on is null, c.ends_on nulls last, c.code
   limit 50`,
);
export interface LabelWanted {
  productId: string;
  lot: string | null;
  serial: string | null;
  /** Of several alike, one that stands where this tray is set. */
  forTrayId: string | null;
}
export const findContainersByLabel = (tx: Tx, wanted: LabelWanted): Promise<ContainerRow[]> =>
  tx.rows(byLabel, [
    tx.actor.practiceId,
    wanted.productId,
    wanted.lot,
    wanted.serial,
    wanted.forTrayId,
  ]);

const listed = statement<ContainerRow & { cursor: string }>(
  "list-containers",
  `select * from (
     select ${containerColumns}, ${isWithdrawn} as withdrawn,
            coalesce(c.ends_on, 'infinity'::date)::text || ' ' || c.code as cursor, c.outside
     from container_now c
     where c.practice_id = $1 and ($2::uuid is null or c.location_id = $2)
       and ($3::uuid is null or c.product_id = $3) and ($4::text is null or c.lot = $4)
       and ($5::boolean is null or c.outside <> $5)
       and ($6::text is null or $6 = case
         when c.location_kind = 'quarantine' then 'quarantined'
         when c.location_kind = 'used' then 'empty'
         when c.outside then c.location_kind
         when c.opened_on is null then 'sealed' else 'open' end)
   ) listed
   where $7::text is null or cursor > $7
   order by cursor limit $8`,
);
export const listContainers = (tx: Tx, query: ContainerQuery) =>
  tx.rows(listed, [
    tx.actor.practiceId,
    query.location ?? null,
    query.product ?? null,
    query.lot ?? null,
    query.here === undefined ? null : query.here === "true",
    query.state ?? null,
    query.after ?? null,
    query.limit + 1,
  ]);

const opening = statement<{ id: string }>(
  "open-container",
  `update container set opened_on = $3
   where practice_id = $1 and id = $2 and opened_on is null returning id`,
);
/** False where it is open already, also where somebody opened it this very moment. */
export async function updateOpenedOn(tx: Tx, id: string, on: string): Promise<boolean> {
  return (await tx.rows(opening, [tx.actor.practiceId, id, on])).length === 1;
}

export interface UseRow {
  record_id: string;
  chart_number: string;
  tooth: string;
  step_key: string;
  used_at: Date;
}
const uses = statement<UseRow>(
  "list-container-uses",
  `select m.record_id, p.chart_number, m.tooth, m.step_key, m.used_at
   from step_material m
   join record r on r.practice_id = m.practice_id and r.id = m.record_id
     and r.state <> 'superseded'
   join patient p on p.practice_id = m.practice_id and p.id = m.patient_id
   where m.practice_id = $1 and m.lot_id = $2 and m.container_id = $3
   order by m.used_at, m.id`,
);
export const listContainerUses = (tx: Tx, container: ContainerRow) =>
  tx.rows(uses, [tx.actor.practiceId, container.lot_id, container.id]);

export interface BalanceRow {
  lot_id: string;
  lot: string;
  product_name: string;
  location_id: string;
  location_name: string;
  location_kind: LocationKind;
  quantity: number;
}
const balances = statement<BalanceRow>(
  "list-balances",
  `select b.lot_id, l.lot, p.name as product_name, b.location_id, w.name as location_name,
          w.kind as location_kind, b.quantity
   from balance b
   join lot l on l.practice_id = b.practice_id and l.id = b.lot_id
   join product p on p.id = l.product_id
   join location w on w.practice_id = b.practice_id and w.id = b.location_id
   where b.practice_id = $1 and b.quantity <> 0
     and ($2::uuid is null or b.lot_id = $2) and ($3::uuid is null or b.location_id = $3)
   order by p.name, l.lot, w.outside, w.name limit 5000`,
);
export const listBalances = (tx: Tx, query: BalanceQuery) =>
  tx.rows(balances, [tx.actor.practiceId, query.lot ?? null, query.location ?? null]);

export const findLocation = (tx: Tx, id: string) =>
  tx.manager.findOneBy(LocationRow, { practiceId: tx.actor.practiceId, id });

/** The one place of an outside kind, or the first place of a shelf kind. */
export async function getPlaceOfKind(tx: Tx, kind: LocationKind): Promise<LocationRow> {
  return tx.manager.findOneOrFail(LocationRow, {
    where: { practiceId: tx.actor.practiceId, kind },
    order: { id: "ASC" },
  });
}

/** For whoever measures what the statement costs alone. */
export const stockStatements = { byCode };
