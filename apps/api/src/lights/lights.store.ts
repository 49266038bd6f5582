import type { AddLight, ChangeLight, LightReadingView } from "#contracts/lights";
import { statement, type Tx } from "../db/transaction.ts";

export interface LightRow {
  id: string;
  name: string;
  serial: string;
  tip_tenth_mm: number | null;
  location_id: string | null;
  location_name: string | null;
  retired: boolean;
  modes: { name: string; phases: AddLight["modes"][number]["phases"] }[];
  readings: LightReadingView[];
}
const listed = statement<LightRow>(
  "list-lights",
  `select l.id, l.name, l.serial, l.tip_tenth_mm, l.location_id, w.name as location_name, l.retired,
     (select json_agg(json_build_object('name', y.name, 'phases', y.phases) order by y.place)
      from curing_light_mode y
      where y.practice_id = l.practice_id and y.light_id = l.id) as modes,
     coalesce((select json_agg(json_build_object('id', g.id, 'mode', g.mode,
         'distanceTenthMm', g.distance_tenth_mm, 'irradianceMwCm2', g.irradiance_mw_cm2,
         'radiometer', g.radiometer, 'note', g.note, 'readAt', g.read_at,
         'person', p.display_name, 'replaced', exists (select 1 from light_reading h
           where h.practice_id = g.practice_id and h.replaces_id = g.id))
         order by g.read_at, g.id)
      from light_reading g join person p on p.id = g.person_id
      where g.practice_id = l.practice_id and g.light_id = l.id), '[]') as readings
   from curing_light l
   left join location w on w.practice_id = l.practice_id and w.id = l.location_id
   where l.practice_id = $1 and ($2::uuid is null or l.id = $2)
   order by l.retired, l.name`,
);
export const listLights = (tx: Tx) => tx.rows(listed, [tx.actor.practiceId, null]);
export async function findLight(tx: Tx, id: string): Promise<LightRow | undefined> {
  return (await tx.rows(listed, [tx.actor.practiceId, id]))[0];
}

const lightNew = statement(
  "insert-light",
  `insert into curing_light (practice_id, id, name, serial, tip_tenth_mm, location_id, created_at)
   values ($1, $2, $3, $4, $5, $6, $7)`,
);
const modesNew = statement(
  "insert-light-modes",
  `insert into curing_light_mode (practice_id, light_id, place, name, phases)
   select $1, $2, m.place, m.name, m.phases
   from jsonb_to_recordset($3::jsonb) as m(place integer, name text, phases jsonb)`,
);
export async function insertLight(tx: Tx, id: string, one: AddLight): Promise<void> {
  const { practiceId } = tx.actor;
  const facts = [one.name, one.serial, one.tipTenthMm, one.locationId];
  const modes = one.modes.map((mode, index) => ({ ...mode, place: index + 1 }));
  await tx.rows(lightNew, [practiceId, id, ...facts, tx.at]);
  await tx.rows(modesNew, [practiceId, id, JSON.stringify(modes)]);
}

const lightChanged = statement(
  "update-light",
  `update curing_light set name = $3, serial = $4, tip_tenth_mm = $5, location_id = $6, retired = $7
   where practice_id = $1 and id = $2`,
);
export const updateLight = (tx: Tx, id: string, one: ChangeLight) => {
  const facts = [one.name, one.serial, one.tipTenthMm, one.locationId, one.retired];
  return tx.rows(lightChanged, [tx.actor.practiceId, id, ...facts]);
};

export interface NewReading {
  id: string;
  lightId: string;
  mode: string;
  distanceTenthMm: number;
  irradianceMwCm2: number;
  radiometer: string;
  note: string;
  readAt: string;
  replacesId: string | null;
}
const readingNew = statement(
  "insert-light-reading",
  `insert into light_reading (practice_id, id, light_id, mode, distance_tenth_mm,
     irradiance_mw_cm2, radiometer, note, read_at, replaces_id, person_id, recorded_at)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
);
export const insertReading = (tx: Tx, one: NewReading) => {
  const { practiceId, personId } = tx.actor;
  const what = [one.lightId, one.mode, one.distanceTenthMm, one.irradianceMwCm2, one.radiometer];
  const when = [one.note, one.readAt, one.replacesId, personId, tx.at];
  return tx.rows(readingNew, [practiceId, one.id, ...what, ...when]);
};
