/** Everything the check of a tray is told, in one statement. */
import {
  civilDateAt,
  fillCheckSettings,
  fillStep,
  type Content,
  type ContainerFacts,
  type KeptStep,
  type ProductFacts,
  type ProductKind,
  type Solvent,
  type Strategy,
  type Technique,
  type ToldCheckSettings,
  type TrayFacts,
  type TrayItemFacts,
  type TrayState,
} from "#domain";
import type { Reading } from "#contracts/stock";
import type { VisitTooth } from "#contracts/trays";
import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, containerFacts, type ContainerRow } from "../stock/container-row.ts";
import { scannedFacts } from "../stock/reading.ts";

interface ProductFactsRow {
  product_id: string;
  product_name: string;
  product_kind: ProductKind;
  solvents: Solvent[] | null;
  strategy: Strategy | null;
  system_id: string | null;
  system_name: string | null;
  contents: Content[];
  confirmed: boolean;
  in_use_count: number | null;
  in_use_unit: "day" | "month" | null;
  application_seconds: number | null;
  air_dry_seconds: number | null;
  cure_seconds: number | null;
  single_use: boolean;
  radiant_exposure_j_cm2: number | null;
  warm_up_minutes: number | null;
  drop_life_seconds: number | null;
  filler_percent: number | null;
  modulus_gpa: number | null;
  excursion_level: "caution" | "stop";
}

const productColumns = `p.solvents, p.strategy, p.system_id, bs.name as system_name, p.contents,
  coalesce(p.confirmed_version = p.version, false) as confirmed, p.application_seconds,
  p.air_dry_seconds, p.cure_seconds, p.single_use, p.radiant_exposure_j_cm2, p.warm_up_minutes,
  p.drop_life_seconds, p.filler_percent, p.modulus_gpa, p.excursion_level`;
const ownProduct = `p.id as product_id, p.name as product_name, p.kind as product_kind,
  p.in_use_count, p.in_use_unit`;

function productFacts(row: ProductFactsRow): ProductFacts {
  const { in_use_count: count, in_use_unit: unit } = row;
  return {
    id: row.product_id,
    name: row.product_name,
    kind: row.product_kind,
    solvents: row.solvents,
    strategy: row.strategy,
    system: row.system_id === null ? null : { id: row.system_id, name: row.system_name ?? "" },
    contents: row.contents,
    confirmed: row.confirmed,
    inUseLife: count !== null && unit !== null ? { count, unit } : null,
    applicationSeconds: row.application_seconds,
    airDrySeconds: row.air_dry_seconds,
    cureSeconds: row.cure_seconds,
    singleUse: row.single_use,
    radiantExposureJCm2: row.radiant_exposure_j_cm2,
    warmUpMinutes: row.warm_up_minutes,
    dropLifeSeconds: row.drop_life_seconds,
    fillerPercent: row.filler_percent,
    modulusGpa: row.modulus_gpa,
    excursionLevel: row.excursion_level,
  };
}

export interface TrayHead {
  id: string;
  patient_id: string;
  chart_number: string;
  allergies: Content[];
  teeth: VisitTooth[];
  bonding_on: string | null;
  state: TrayState;
  appointment_at: string;
  location_id: string;
  location_name: string;
  technique_id: string;
  technique_key: string;
  technique_name: string;
  technique_version: number;
  technique_starter: boolean;
  visit: "sealing" | "bonding";
  steps: KeptStep[];
  records: { id: string; tooth: string; state: "draft" | "signed" }[];
  settings: ToldCheckSettings;
}

const headText = (
  which: string,
) => `select t.id, t.patient_id, a.chart_number, a.allergies, t.bonding_on, t.state,
    t.appointment_at, t.location_id, l.name as location_name, e.id as technique_id,
    e.key as technique_key, e.name as technique_name, e.version as technique_version,
    e.starter as technique_starter, e.visit, e.steps, pr.settings,
    (select json_agg(json_build_object('tooth', o.tooth, 'mode', o.mode, 'provisional',
        o.provisional, 'undercut', o.undercut, 'surfaces', o.surfaces, 'restoration',
        o.restoration) order by o.place)
      from tray_tooth o where o.practice_id = t.practice_id and o.tray_id = t.id) as teeth,
    (select coalesce(json_agg(json_build_object('id', r.id, 'tooth', r.tooth, 'state', r.state)
        order by o.place), '[]')
      from record r
      join tray_tooth o on o.practice_id = r.practice_id and o.tray_id = r.tray_id
        and o.tooth = r.tooth
      where r.practice_id = t.practice_id and r.tray_id = t.id
        and r.state <> 'superseded') as records
  from tray t
  join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
  join location l on l.practice_id = t.practice_id and l.id = t.location_id
  join technique e on e.id = t.technique_id
  join practice pr on pr.practice_id = t.practice_id
  where t.practice_id = $1 and ${which}
  order by t.appointment_at, t.id`;

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
  };

const coverage = `array(
    select jsonb_build_object('id', wd.id, 'reference', wd.reference)
    from withdrawal_scope ws
    join withdrawal wd on wd.practice_id = ws.practice_id and wd.id = ws.withdrawal_id
    where ws.practice_id = $1 and ws.product_id = p.id and ws.lot in ('', c.lot)
      and wd.state <> 'closed' order by wd.received_at) as withdrawals`;
const elsewhere = `lateral (
    select ot.id, oa.chart_number || ' / ' || ot.tooth as name
    from tray_item oi
    join tray ot on ot.practice_id = oi.practice_id and ot.id = oi.tray_id and ot.state <> 'cleared'
    join patient oa on oa.practice_id = ot.practice_id and oa.id = ot.patient_id
    where oi.practice_id = $1 and oi.container_id = c.id and oi.removed_at is null
      and oi.tray_id <> i.tray_id
    order by ot.appointment_at limit 1) other on true`;
// What a single-use container did before; of any other product it is not asked.
const usedBefore = `(
    select max(m.used_at) from step_material m
    join tray t on t.practice_id = m.practice_id and t.id = i.tray_id
    where p.single_use and m.practice_id = $1 and m.lot_id = c.lot_id and m.container_id = c.id
      and m.patient_id <> t.patient_id) as used_for_other_at`;
const containerOnly = containerColumns
  .split(",")
  .filter((column) => !/product_|in_use/.test(column))
  .join(",");

const itemText = `select i.id as item_id, i.tray_id, i.step_key, i.barcode, i.scanned, i.placed_at,
    i.scanned_at, e.display_name as placed_by, ${containerOnly}, ${ownProduct}, ${productColumns},
    other.id as other_tray_id, other.name as other_tray_name,
    ${usedBefore}, ${coverage}
  from tray_item i
  join person e on e.id = i.placed_by
  left join container_now c on c.practice_id = i.practice_id and c.id = i.container_id
  left join product p on p.id = i.product_id
  left join bonding_system bs on bs.id = p.system_id
  left join ${elsewhere}
  where i.practice_id = $1 and i.tray_id in (select id from heads) and i.removed_at is null
  order by i.placed_at, i.id`;

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
  reason: string;
  person: string;
  at: string;
}
const overrideText = `select o.tray_id, o.code, o.subject, o.reason, p.display_name as person, o.at
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

const techniqueOf = (row: TrayHead): Technique => ({
  id: row.technique_id,
  name: row.technique_name,
  version: row.technique_version,
  visit: row.visit,
  steps: row.steps.map(fillStep),
});

function itemFacts(row: ItemRow, timeZone: string): TrayItemFacts {
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
        : civilDateAt(new Date(row.used_for_other_at).toISOString(), timeZone),
    serialTakenBy: null,
    excursions: [],
    leftRefrigeratorAt: null,
    dispensedAt: null,
    stock: null,
    withdrawals: row.withdrawals,
  };
}
const containerOf = (row: ItemRow): ContainerFacts | null =>
  row.id === null ? null : containerFacts(row as ItemRow & ContainerRow);

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
  return (heads ?? []).map((head) => {
    const own = <Row extends { tray_id: string }>(rows: Row[] | null) =>
      (rows ?? []).filter((row) => row.tray_id === head.id);
    const rows = own(items);
    const facts = factsOf(tx, head, { rows, shelf: onShelf });
    return { head, rows, facts, overrides: own(overrides) };
  });
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
    teeth: head.teeth,
    light: null,
    bonding: null,
    seals: [],
    thicknesses: [],
    patient: { allergies: head.allergies },
    place: { id: head.location_id, name: head.location_name, kind: "operatory" },
    items: read.rows.map((row) => itemFacts(row, tx.actor.timeZone)),
    shelf: read.shelf,
  };
}

/** The statements of a scan's check, for whoever measures what they cost alone. */
export const trayStatements = { lock, facts: factsOfOne };
