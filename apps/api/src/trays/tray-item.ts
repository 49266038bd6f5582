/** An item of a tray with what the check asks of it, as one statement reads it. */
import { civilDateAt, type ContainerFacts, type ProductKind, type TrayItemFacts } from "#domain";
import type { Reading } from "#contracts/stock";
import { containerColumns, containerFacts, type ContainerRow } from "../stock/container-row.ts";
import { scannedFacts } from "../stock/reading.ts";
import { usesLeft } from "../stock/uses-left.ts";
import { otherTray } from "./other-tray.ts";
import { ownProduct, productColumns, productFacts, type ProductFactsRow } from "./product-facts.ts";

export type ItemRow = Omit<ContainerRow, "id" | "product_id" | "product_name" | "product_kind"> &
  Omit<ProductFactsRow, "product_id" | "product_name" | "product_kind"> & {
    item_id: string;
    tray_id: string;
    step_key: string | null;
    barcode: string;
    scanned: Reading;
    placed_at: string;
    scanned_at: string | null;
    placed_by: string;
    id: string | null;
    product_id: string | null;
    product_name: string | null;
    product_kind: ProductKind | null;
    other_tray_id: string | null;
    other_tray_name: string | null;
    used_for_other_at: string | null;
    withdrawals: { id: string; reference: string }[];
    serial_taken_by: string | null;
    left_refrigerator_at: string | null;
    dispensed_at: string | null;
    stock: { usesLeft: number; reorderUses: number } | null;
    excursions: { id: string; place: string; from: string; to: string }[];
  };

const coverage = `array(
    select jsonb_build_object('id', wd.id, 'reference', wd.reference)
    from withdrawal_scope ws
    join withdrawal wd on wd.practice_id = ws.practice_id and wd.id = ws.withdrawal_id
    where ws.practice_id = $1 and ws.product_id = p.id and ws.lot in ('', c.lot)
      and wd.state <> 'closed' order by wd.received_at) as withdrawals`;
// What a single-use container did before; of any other product it is not asked.
const usedBefore = `(
    select max(m.used_at) from step_material m
    join record r on r.practice_id = m.practice_id and r.id = m.record_id
      and r.state <> 'superseded'
    join tray t on t.practice_id = m.practice_id and t.id = i.tray_id
    where p.single_use and m.practice_id = $1 and m.lot_id = c.lot_id and m.container_id = c.id
      and m.patient_id <> t.patient_id) as used_for_other_at`;
const serialTaken = `(
    select o.code from container o
    where o.practice_id = $1 and o.product_id = p.id and o.serial = i.scanned->>'serial'
      and o.id is distinct from i.container_id limit 1) as serial_taken_by`;
// Asked only where the IFU gives a time.
const leftRefrigerator = `case
    when p.warm_up_minutes is not null and c.location_kind <> 'refrigerator' then (
      select max(m.occurred_at) from movement m
      join location f on f.practice_id = m.practice_id and f.id = m.from_location_id
        and f.kind = 'refrigerator'
      where m.practice_id = $1 and m.container_id = c.id) end as left_refrigerator_at`;
const dispensed = `case when p.drop_life_seconds is not null then (
    select max(v.occurred_at) from record r
    join record_event v on v.practice_id = r.practice_id and v.record_id = r.id
      and v.kind = 'dispensed' and v.facts->>'containerId' = c.id::text
    where r.practice_id = $1 and r.tray_id = i.tray_id and r.state = 'draft') end as dispensed_at`;
// One use a record; what is in quarantine serves nobody.
const stock = `case when p.uses_per_container is not null then (
    select json_build_object('reorderUses', s.reorder_uses, 'usesLeft', ${usesLeft("p")})
    from product_stock_rule s where s.practice_id = $1 and s.product_id = p.id) end as stock`;
// It came to the place before the excursion was over, and left it only after it had begun.
const excursions = `array(
    select jsonb_build_object('id', x.id, 'place', w.name, 'from', x.from_at, 'to', x.to_at)
    from storage_excursion x
    join location w on w.practice_id = x.practice_id and w.id = x.location_id
    where x.practice_id = $1 and x.resolved_at is null and exists (
      select 1 from movement m
      where m.practice_id = $1 and m.container_id = c.id and m.to_location_id = x.location_id
        and m.occurred_at < x.to_at and not exists (
          select 1 from movement n
          where n.practice_id = $1 and n.container_id = c.id
            and n.from_location_id = x.location_id and n.recorded_at > m.recorded_at
            and n.occurred_at <= x.from_at))
    order by x.from_at) as excursions`;
const containerOnly = containerColumns
  .split(",")
  .filter((column) => !/product_|in_use/.test(column))
  .join(",");

export const itemText = `select i.id as item_id, i.tray_id, i.step_key, i.barcode, i.scanned,
    i.placed_at,
    i.scanned_at, e.display_name as placed_by, ${containerOnly}, ${ownProduct}, ${productColumns},
    other.id as other_tray_id, other.name as other_tray_name,
    ${usedBefore}, ${coverage}, ${serialTaken}, ${leftRefrigerator}, ${dispensed}, ${stock},
    ${excursions}
  from tray_item i
  join person e on e.id = i.placed_by
  left join container_now c on c.practice_id = i.practice_id and c.id = i.container_id
  left join product p on p.id = i.product_id
  left join bonding_system bs on bs.id = p.system_id
  left join lateral (${otherTray("i")}) other on true
  where i.practice_id = $1 and i.tray_id in (select id from heads) and i.removed_at is null
  order by i.placed_at, i.id`;

/** An instant as the database writes it inside JSON. */
const instantOf = (text: string): string => new Date(text).toISOString();

export function itemFacts(row: ItemRow, timeZone: string): TrayItemFacts {
  return {
    id: row.item_id,
    stepKey: row.step_key,
    scanned: scannedFacts(row.scanned),
    product: row.product_id === null ? null : productFacts(row as ProductFactsRow),
    container: containerOf(row),
    onOtherTray:
      row.other_tray_id === null
        ? null
        : { id: row.other_tray_id, name: row.other_tray_name ?? "" },
    usedForOtherOn:
      row.used_for_other_at === null
        ? null
        : civilDateAt(instantOf(row.used_for_other_at), timeZone),
    serialTakenBy: row.serial_taken_by,
    excursions: row.excursions.map((one) => ({
      ...one,
      from: instantOf(one.from),
      to: instantOf(one.to),
    })),
    leftRefrigeratorAt: row.left_refrigerator_at && instantOf(row.left_refrigerator_at),
    dispensedAt: row.dispensed_at && instantOf(row.dispensed_at),
    stock: row.stock,
    withdrawals: row.withdrawals,
  };
}
const containerOf = (row: ItemRow): ContainerFacts | null =>
  row.id === null ? null : containerFacts(row as ItemRow & ContainerRow);
