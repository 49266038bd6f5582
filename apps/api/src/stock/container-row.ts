import {
  computeContainerState,
  computeEffectiveEnd,
  type ContainerFacts,
  type InUseLife,
  type LocationKind,
  type ProductKind,
} from "#domain";
import type { ContainerView } from "#contracts/stock";

/** One row of the view `container_now`. */
export interface ContainerRow {
  id: string;
  code: string;
  serial: string | null;
  opened_on: string | null;
  lot_id: string;
  lot: string;
  use_by: string | null;
  use_by_precision: "day" | "month" | null;
  product_id: string;
  product_name: string;
  product_kind: ProductKind;
  in_use_count: number | null;
  in_use_unit: "day" | "month" | null;
  location_id: string;
  location_name: string;
  location_kind: LocationKind;
  withdrawn?: boolean;
}

export const containerColumns = `c.id, c.code, c.serial, c.opened_on, c.lot_id, c.lot, c.use_by,
  c.use_by_precision, c.product_id, c.product_name, c.product_kind, c.in_use_count, c.in_use_unit,
  c.location_id, c.location_name, c.location_kind`;

/** True where an open withdrawal covers the container `c`. */
export const isWithdrawn = `exists (
  select 1 from withdrawal_scope ws
  join withdrawal wd on wd.practice_id = ws.practice_id and wd.id = ws.withdrawal_id
  where ws.practice_id = c.practice_id and ws.product_id = c.product_id and ws.lot in ('', c.lot)
    and wd.state <> 'closed')`;

const inUseLifeOf = (row: ContainerRow): InUseLife | null =>
  row.in_use_count !== null && row.in_use_unit !== null
    ? { count: row.in_use_count, unit: row.in_use_unit }
    : null;

export const useByOf = (row: Pick<ContainerRow, "use_by" | "use_by_precision">) =>
  row.use_by !== null && row.use_by_precision !== null
    ? { date: row.use_by, precision: row.use_by_precision }
    : null;

export function containerFacts(row: ContainerRow): ContainerFacts {
  return {
    id: row.id,
    code: row.code,
    productId: row.product_id,
    lotId: row.lot_id,
    lot: row.lot,
    useBy: useByOf(row),
    serial: row.serial,
    openedOn: row.opened_on,
    state: computeContainerState(row.location_kind, row.opened_on),
    place: { id: row.location_id, name: row.location_name, kind: row.location_kind },
  };
}

export function containerView(row: ContainerRow): ContainerView {
  const { place, productId, ...facts } = containerFacts(row);
  const { useBy, openedOn } = facts;
  return {
    ...facts,
    product: { id: productId, name: row.product_name, kind: row.product_kind },
    endsOn: computeEffectiveEnd({ useBy, openedOn, inUseLife: inUseLifeOf(row) }),
    location: place,
    withdrawn: row.withdrawn ?? false,
  };
}
