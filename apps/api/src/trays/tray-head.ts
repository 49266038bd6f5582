/** The head of a tray with what the check asks of the visit, as one statement reads it. */
import {
  civilDateAt,
  fillStep,
  type Content,
  type KeptStep,
  type ProductKind,
  type Technique,
  type ToldCheckSettings,
  type TrayFacts,
  type TrayState,
} from "#domain";
import type { VisitTooth } from "#contracts/trays";
import { latestReadings } from "../lights/latest-readings.ts";

export interface TrayHead {
  id: string;
  patient_id: string;
  chart_number: string;
  allergies: Content[];
  teeth: VisitTooth[];
  bonding_on: string | null;
  preferred: TrayFacts["preferred"];
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
  /** Kinds that the practice's bonding techniques take; null where no bonding visit is planned. */
  bonding_kinds: ProductKind[] | null;
  seals: SealRow[];
  thicknesses: { tooth: string; stepKey: string; tenthMm: number }[];
  light: LightRow | null;
}

interface SealRow {
  tooth: string;
  sealed_at: string;
  cement: string | null;
  eugenol: boolean | null;
}

interface LightRow {
  id: string;
  name: string;
  table: { distanceTenthMm: number; irradianceMwPerCm2: number }[];
  read_at: string | null;
}

const bondingKinds = `case when t.bonding_on is not null and e.visit = 'sealing' then array(
    select distinct k from technique q, jsonb_array_elements(q.steps) s,
      jsonb_array_elements_text(s->'accepts') k
    where q.organisation_id = e.organisation_id and q.visit = 'bonding' and not q.retired) end`;

// Of each tooth the latest signed seal, with the provisional cement that went onto it.
const seals = `case when e.visit = 'bonding' then (
    select json_agg(json_build_object('tooth', o.tooth, 'sealed_at', s.started_at,
        'cement', s.cement, 'eugenol', s.eugenol) order by o.place)
    from tray_tooth o
    join lateral (
      select r.started_at, c.name as cement, 'eugenol' = any(c.contents) as eugenol
      from record r
      left join lateral (
        select p.name, p.contents from step_material m
        join product p on p.id = m.product_id and p.kind = 'provisional-cement'
        where m.practice_id = r.practice_id and m.record_id = r.id
        order by m.used_at desc limit 1) c on true
      where r.practice_id = t.practice_id and r.patient_id = t.patient_id and r.tooth = o.tooth
        and r.visit = 'sealing' and r.state = 'signed'
      order by r.started_at desc limit 1) s on true
    where o.practice_id = t.practice_id and o.tray_id = t.id) end`;

const thicknesses = `(
    select json_agg(x) from (
      select distinct on (r.tooth, v.step_key) r.tooth, v.step_key as "stepKey",
        (v.facts->>'tenthMm')::int as "tenthMm"
      from record r
      join record_event v on v.practice_id = r.practice_id and v.record_id = r.id
        and v.kind = 'thickness'
      where r.practice_id = t.practice_id and r.tray_id = t.id and r.state = 'draft'
      order by r.tooth, v.step_key, v.sequence desc) x)`;

// The operatory's own light in its first mode: at each distance the latest reading that stands.
const light = `(
    select json_build_object('id', l.id, 'name', l.name,
      'table', coalesce((
        select json_agg(json_build_object('distanceTenthMm', d.distance_tenth_mm,
          'irradianceMwPerCm2', d.irradiance_mw_cm2) order by d.distance_tenth_mm)
        from (${latestReadings}) d), '[]'),
      'read_at', (
        select max(d.read_at) from (${latestReadings}) d where d.distance_tenth_mm = 0))
    from curing_light l
    join curing_light_mode y on y.practice_id = l.practice_id and y.light_id = l.id and y.place = 1
    where l.practice_id = t.practice_id and l.location_id = t.location_id and not l.retired
    order by l.name limit 1)`;

export const headText = (
  which: string,
) => `select t.id, t.patient_id, a.chart_number, a.allergies, t.bonding_on, t.state, t.preferred,
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
        and r.state <> 'superseded') as records,
    ${bondingKinds} as bonding_kinds, coalesce(${seals}, '[]') as seals,
    coalesce(${thicknesses}, '[]') as thicknesses, ${light} as light
  from tray t
  join patient a on a.practice_id = t.practice_id and a.id = t.patient_id
  join location l on l.practice_id = t.practice_id and l.id = t.location_id
  join technique e on e.id = t.technique_id
  join practice pr on pr.practice_id = t.practice_id
  where t.practice_id = $1 and ${which}
  order by t.appointment_at, t.id`;

export const techniqueOf = (row: TrayHead): Technique => ({
  id: row.technique_id,
  name: row.technique_name,
  version: row.technique_version,
  visit: row.visit,
  steps: row.steps.map(fillStep),
});

/** What the check is told of the visit. */
export function visitFacts(
  head: TrayHead,
  timeZone: string,
): Pick<TrayFacts, "teeth" | "preferred" | "light" | "bonding" | "seals" | "thicknesses"> {
  const dayOf = (at: string): string => civilDateAt(new Date(at).toISOString(), timeZone);
  return {
    teeth: head.teeth,
    preferred: head.preferred,
    light:
      head.light === null
        ? null
        : {
            id: head.light.id,
            name: head.light.name,
            table: head.light.table,
            readOn: head.light.read_at === null ? null : dayOf(head.light.read_at),
          },
    bonding:
      head.bonding_on === null || head.bonding_kinds === null
        ? null
        : { on: head.bonding_on, accepts: head.bonding_kinds },
    seals: head.seals.map(({ tooth, sealed_at: at, cement, eugenol }) => ({
      tooth,
      sealedOn: dayOf(at),
      provisionalCement: cement === null ? null : { name: cement, eugenol: eugenol ?? false },
    })),
    thicknesses: head.thicknesses,
  };
}
