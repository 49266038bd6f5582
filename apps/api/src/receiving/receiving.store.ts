import type { ProductKind } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";
import { DeliveryRow } from "../db/tables.ts";

export interface DeliveryFacts {
  id: string;
  supplier: string;
  note: string;
  received_at: Date;
  received_by: string;
  lines: number;
}
const deliveries = statement<DeliveryFacts>(
  "list-deliveries",
  `select d.id, d.supplier, d.note, d.received_at, p.display_name as received_by,
          (select count(*)::int from delivery_line l
           where l.practice_id = d.practice_id and l.delivery_id = d.id) as lines
   from delivery d join person p on p.id = d.received_by
   where d.practice_id = $1 and ($2::uuid is null or d.id = $2)
   order by d.received_at desc, d.id desc limit 200`,
);
export const listDeliveries = (tx: Tx) => tx.rows(deliveries, [tx.actor.practiceId, null]);
export async function findDelivery(tx: Tx, id: string): Promise<DeliveryFacts | undefined> {
  return (await tx.rows(deliveries, [tx.actor.practiceId, id]))[0];
}
export const insertDelivery = (tx: Tx, row: Omit<DeliveryRow, "practiceId">) =>
  tx.manager.insert(DeliveryRow, { ...row, practiceId: tx.actor.practiceId });

export interface LineFacts {
  id: string;
  received_at: Date;
  product_id: string;
  product_name: string;
  product_kind: ProductKind;
  lot_id: string;
  lot: string;
  use_by: string | null;
  use_by_precision: "day" | "month" | null;
  serial: string | null;
  containers: { id: string; code: string }[];
}
const lines = statement<LineFacts>(
  "list-delivery-lines",
  `select l.id, l.received_at, p.id as product_id, p.name as product_name, p.kind as product_kind,
          o.id as lot_id, o.lot, o.use_by, o.use_by_precision, l.serial,
          (select json_agg(json_build_object('id', c.id, 'code', c.code)
                          order by c.created_at, c.id)
           from container c
           where c.practice_id = l.practice_id and c.delivery_line_id = l.id) as containers
   from delivery_line l
   join lot o on o.practice_id = l.practice_id and o.id = l.lot_id
   join product p on p.id = o.product_id
   where l.practice_id = $1 and l.delivery_id = $2
   order by l.received_at desc, l.id desc`,
);
export const listLines = (tx: Tx, deliveryId: string) =>
  tx.rows(lines, [tx.actor.practiceId, deliveryId]);

export interface LotRow {
  id: string;
  lot: string;
  use_by: string | null;
  use_by_precision: "day" | "month" | null;
}
const lotSought = statement<LotRow>(
  "find-lot",
  `select id, lot, use_by, use_by_precision from lot
   where practice_id = $1 and product_id = $2 and lot = $3`,
);
export async function findLot(tx: Tx, productId: string, lot: string): Promise<LotRow | undefined> {
  return (await tx.rows(lotSought, [tx.actor.practiceId, productId, lot]))[0];
}
const lotNew = statement(
  "insert-lot",
  `insert into lot (practice_id, id, product_id, lot, lot_plain, lot_look, use_by, use_by_precision,
                    created_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9)
   on conflict on constraint lot_taken do nothing`,
);
export const insertLot = (
  tx: Tx,
  one: LotRow & { productId: string; plain: string; look: string },
) => {
  const texts = [one.lot, one.plain, one.look];
  const dates = [one.use_by, one.use_by_precision, tx.at];
  return tx.rows(lotNew, [tx.actor.practiceId, one.id, one.productId, ...texts, ...dates]);
};

const covering = statement<{ id: string; reference: string }>(
  "list-covering-withdrawals",
  `select w.id, w.reference from withdrawal_scope s
   join withdrawal w on w.practice_id = s.practice_id and w.id = s.withdrawal_id
   where s.practice_id = $1 and s.product_id = $2 and s.lot in ('', $3) and w.state <> 'closed'
   order by w.received_at`,
);
export const listCoveringWithdrawals = (tx: Tx, productId: string, lot: string) =>
  tx.rows(covering, [tx.actor.practiceId, productId, lot]);

const lineNew = statement(
  "insert-delivery-line",
  `insert into delivery_line (practice_id, id, delivery_id, lot_id, containers, serial, barcode,
                              received_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8)`,
);
export const insertLine = (
  tx: Tx,
  one: {
    id: string;
    deliveryId: string;
    lotId: string;
    containers: number;
    serial: string | null;
    barcode: string;
  },
) =>
  tx.rows(lineNew, [
    tx.actor.practiceId,
    one.id,
    one.deliveryId,
    one.lotId,
    one.containers,
    one.serial,
    one.barcode,
    tx.at,
  ]);

const counter = statement<{ first: number }>(
  "take-container-numbers",
  `update practice set container_counter = container_counter + $2
   where practice_id = $1 returning container_counter - $2 as first`,
);
/** Takes `count` numbers for container codes; gives the first of them. */
export async function takeContainerNumbers(tx: Tx, count: number): Promise<number> {
  return (await tx.rows(counter, [tx.actor.practiceId, count]))[0]!.first;
}

const containersNew = statement(
  "insert-containers",
  `insert into container (practice_id, id, code, lot_id, product_id, delivery_line_id, serial,
                          location_id, created_at)
   select $1, each.id, each.code, $2, $3, $4, $5, $6, $7
   from unnest($8::uuid[], $9::text[]) as each (id, code)`,
);
export const insertContainers = (
  tx: Tx,
  one: {
    lotId: string;
    productId: string;
    lineId: string;
    serial: string | null;
    locationId: string;
    containers: readonly { id: string; code: string }[];
  },
) =>
  tx.rows(containersNew, [
    tx.actor.practiceId,
    one.lotId,
    one.productId,
    one.lineId,
    one.serial,
    one.locationId,
    tx.at,
    one.containers.map(({ id }) => id),
    one.containers.map(({ code }) => code),
  ]);
