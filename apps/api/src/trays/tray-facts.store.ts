/** Everything the check of a tray is told, in one statement. */
import { civilDateAt, fillCheckSettings, type Finding, type TrayFacts } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, containerFacts, type ContainerRow } from "../stock/container-row.ts";
import { productColumns, productFacts, type ProductFactsRow } from "./product-facts.ts";
import { headText, techniqueOf, visitFacts, type TrayHead } from "./tray-head.ts";
import { itemFacts, itemText, type ItemRow } from "./tray-item.ts";

export type { ItemRow, TrayHead };

const lock = statement<TrayLock>(
  "lock-tray",
  "select state, location_id from tray where practice_id = $1 and id = $2 for update",
);
export type TrayLock = Pick<TrayHead, "state" | "location_id">;
/** Holds a tray against other changes until the transaction ends. */
export async function lockTray(tx: Tx, id: string): Promise<TrayLock | undefined> {
  return (await tx.rows(lock, [tx.actor.practiceId, id]))[0];
}

// The day's bounds in the practice's zone: 23, 24 or 25 hours.
const onDay = statement<{ id: string }>(
  "trays-on-day",
  `select id from tray
   where practice_id = $1 and appointment_at >= $2::date::timestamp at time zone $3
     and appointment_at < ($2::date + 1)::timestamp at time zone $3`,
);
export async function listTraysOn(tx: Tx, day: string): Promise<string[]> {
  const rows = await tx.rows(onDay, [tx.actor.practiceId, day, tx.actor.timeZone]);
  return rows.map(({ id }) => id);
}

type ShelfRow = ContainerRow & ProductFactsRow;
// The three best of each product: what ends first, open before sealed. A tray needs no more.
const shelfText = `select * from (
    select ${containerColumns}, ${productColumns},
           row_number() over (partition by c.product_id order by c.ends_on nulls last,
             c.opened_on is null, c.location_id <> (select location_id from heads limit 1), c.code)
             as place
    from container_now c
    join product p on p.id = c.product_id
    left join bonding_system bs on bs.id = p.system_id
    where c.practice_id = $1 and not c.outside and c.location_kind <> 'quarantine'
      and c.product_kind = any(array(
        select k from heads, jsonb_array_elements(steps) s,
          jsonb_array_elements_text(s->'accepts') k))
      and (c.ends_on is null or c.ends_on >= greatest($3::date,
        (select min((appointment_at at time zone $4)::date) from heads)))
      and not (p.single_use and c.opened_on is not null)
      and not exists (select 1 from tray_item i
        join tray t on t.practice_id = i.practice_id and t.id = i.tray_id and t.state <> 'cleared'
        where i.practice_id = $1 and i.container_id = c.id and i.removed_at is null)
      and not exists (select 1 from withdrawal_scope ws
        join withdrawal wd on wd.practice_id = ws.practice_id and wd.id = ws.withdrawal_id
        where ws.practice_id = $1 and ws.product_id = c.product_id and ws.lot in ('', c.lot)
          and wd.state <> 'closed')
  ) ranked where place <= 3`;

export interface OverrideRow {
  tray_id: string;
  code: string;
  subject: string;
  /** As the check said it then. */
  finding: Finding;
  reason: string;
  person: string;
  at: string;
}
const overrideText = `select o.tray_id, o.code, o.subject, o.finding, o.reason,
    p.display_name as person, o.at
  from finding_override o join person p on p.id = o.person_id
  where o.practice_id = $1 and o.tray_id in (select id from heads)`;

interface FactsRow {
  heads: TrayHead[] | null;
  items: ItemRow[] | null;
  shelf: ShelfRow[] | null;
  overrides: OverrideRow[] | null;
}
const factsText = (which: string) => `with heads as (${headText(which)})
   select (select json_agg(h) from heads h) as heads,
          (select json_agg(i) from (${itemText}) i) as items,
          (select json_agg(s) from (${shelfText}) s) as shelf,
          (select json_agg(o) from (${overrideText}) o) as overrides`;
// Two forms: with one id the plan is the same for every tray, so PostgreSQL keeps it.
const factsOfOne = statement<FactsRow>("tray-facts", factsText("t.id = $2"));
const factsOfMany = statement<FactsRow>("trays-facts", factsText("t.id = any($2)"));

export interface LoadedTray {
  head: TrayHead;
  rows: ItemRow[];
  facts: TrayFacts;
  overrides: OverrideRow[];
}

/** A tray with all its facts; undefined where there is none. */
export async function loadTray(tx: Tx, trayId: string): Promise<LoadedTray | undefined> {
  return (await readFacts(tx, factsOfOne, trayId))[0];
}

/** Trays in the order of their appointments, each with its facts: one statement for them all. */
export const loadTrays = (tx: Tx, trayIds: readonly string[]): Promise<LoadedTray[]> =>
  readFacts(tx, factsOfMany, trayIds);

async function readFacts(
  tx: Tx,
  asked: typeof factsOfOne,
  which: string | readonly string[],
): Promise<LoadedTray[]> {
  const { practiceId, timeZone } = tx.actor;
  const today = civilDateAt(tx.at.toISOString(), timeZone);
  const [read] = await tx.rows(asked, [practiceId, which, today, timeZone]);
  const { heads, items, shelf, overrides } = read!;
  const onShelf = (shelf ?? []).map((row) => ({
    container: containerFacts(row),
    product: productFacts(row),
  }));
  const [itemsOf, overridesOf] = [byTray(items), byTray(overrides)];
  return (heads ?? []).map((head) => {
    const rows = itemsOf.get(head.id) ?? [];
    const facts = factsOf(tx, head, { rows, shelf: onShelf });
    return { head, rows, facts, overrides: overridesOf.get(head.id) ?? [] };
  });
}

function byTray<Row extends { tray_id: string }>(rows: Row[] | null): ReadonlyMap<string, Row[]> {
  const found = new Map<string, Row[]>();
  for (const row of rows ?? []) {
    const own = found.get(row.tray_id);
    if (own === undefined) found.set(row.tray_id, [row]);
    else own.push(row);
  }
  return found;
}

function factsOf(
  tx: Tx,
  head: TrayHead,
  read: { rows: readonly ItemRow[]; shelf: TrayFacts["shelf"] },
): TrayFacts {
  return {
    timeZone: tx.actor.timeZone,
    settings: fillCheckSettings(head.settings),
    technique: techniqueOf(head),
    appointmentAt: new Date(head.appointment_at).toISOString(),
    ...visitFacts(head, tx.actor.timeZone),
    patient: { allergies: head.allergies },
    place: { id: head.location_id, name: head.location_name, kind: "operatory" },
    items: read.rows.map((row) => itemFacts(row, tx.actor.timeZone)),
    shelf: read.shelf,
  };
}

/** The statements of a scan's check, for whoever measures what they cost alone. */
export const trayStatements = { lock, facts: factsOfOne };
