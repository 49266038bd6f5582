import type { LabelSubject } from "#contracts/label-printing";
import { statement, type Tx } from "../db/transaction.ts";
import { containerColumns, type ContainerRow } from "../stock/container-row.ts";

export interface RunRow {
  id: string;
  made_at: Date;
  made_by: string;
  copies: number;
  reprint_of: string | null;
  labels: number;
}
const runs = statement<RunRow>(
  "list-label-runs",
  `select r.id, r.made_at, coalesce(p.display_name, '') as made_by, r.copies, r.reprint_of,
          (select count(*)::int from label_run_subject s
           where s.practice_id = r.practice_id and s.run_id = r.id) as labels
   from label_run r left join person p on p.id = r.made_by
   where r.practice_id = $1 and ($2::uuid is null or r.id = $2)
   order by r.made_at desc, r.id desc limit 200`,
);
export const listRuns = (tx: Tx) => tx.rows(runs, [tx.actor.practiceId, null]);
export async function findRun(tx: Tx, id: string): Promise<RunRow | undefined> {
  return (await tx.rows(runs, [tx.actor.practiceId, id]))[0];
}

const runNew = statement(
  "insert-label-run",
  `insert into label_run (practice_id, id, copies, reprint_of, made_by, made_at)
   values ($1, $2, $3, $4, $5, $6)`,
);
export const insertRun = (
  tx: Tx,
  { id, copies, reprintOf }: { id: string; copies: number; reprintOf: string | null },
) => tx.rows(runNew, [tx.actor.practiceId, id, copies, reprintOf, tx.actor.personId, tx.at]);

const subjectsNew = statement(
  "insert-label-run-subjects",
  `insert into label_run_subject (practice_id, run_id, position, container_id, location_id, tray_id)
   select $1, $2, each.position, case each.kind when 'container' then each.id end,
          case each.kind when 'location' then each.id end,
          case each.kind when 'tray' then each.id end
   from unnest($3::text[], $4::uuid[]) with ordinality as each (kind, id, position)`,
);
export const insertSubjects = (tx: Tx, runId: string, subjects: readonly LabelSubject[]) =>
  tx.rows(subjectsNew, [
    tx.actor.practiceId,
    runId,
    subjects.map(({ kind }) => kind),
    subjects.map(({ id }) => id),
  ]);

const subjects = statement<LabelSubject>(
  "list-label-run-subjects",
  `select case when container_id is not null then 'container'
               when location_id is not null then 'location' else 'tray' end as kind,
          coalesce(container_id, location_id, tray_id) as id
   from label_run_subject where practice_id = $1 and run_id = $2 order by position`,
);
export const listSubjects = (tx: Tx, runId: string) =>
  tx.rows(subjects, [tx.actor.practiceId, runId]);

const containers = statement<ContainerRow>(
  "list-labelled-containers",
  `select ${containerColumns} from container_now c where c.practice_id = $1 and c.id = any ($2)`,
);
export const listLabelledContainers = (tx: Tx, ids: readonly string[]) =>
  tx.rows(containers, [tx.actor.practiceId, ids]);

export interface LabelledPlace {
  id: string;
  /** Empty before the first label. */
  code: string;
  name: string;
}
const places = statement<LabelledPlace>(
  "list-labelled-places",
  `select id, coalesce(code, '') as code, name from location
   where practice_id = $1 and id = any ($2) and not outside`,
);
export const listLabelledPlaces = (tx: Tx, ids: readonly string[]) =>
  tx.rows(places, [tx.actor.practiceId, ids]);

export interface LabelledTray {
  id: string;
  /** Empty before the first label. */
  code: string;
  chart_number: string;
  tooth: string;
  place: string;
  /** The appointment as a clock in the practice shows it, `2026-06-15 09:00`. */
  starts: string;
}
const trays = statement<LabelledTray>(
  "list-labelled-trays",
  `select t.id, coalesce(t.code, '') as code, p.chart_number, t.tooth, w.name as place,
          to_char(t.appointment_at at time zone $3, 'YYYY-MM-DD HH24:MI') as starts
   from tray t
   join patient p on p.practice_id = t.practice_id and p.id = t.patient_id
   join location w on w.practice_id = t.practice_id and w.id = t.location_id
   where t.practice_id = $1 and t.id = any ($2)`,
);
export const listLabelledTrays = (tx: Tx, ids: readonly string[]) =>
  tx.rows(trays, [tx.actor.practiceId, ids, tx.actor.timeZone]);

interface Coded {
  id: string;
  code: string | null;
}
const placeCodes = statement<Coded>(
  "list-place-codes",
  `select id, code from location where practice_id = $1 and id = any ($2) and not outside`,
);
const trayCodes = statement<Coded>(
  "list-tray-codes",
  "select id, code from tray where practice_id = $1 and id = any ($2)",
);
export const listCodes = (tx: Tx, kind: "location" | "tray", ids: readonly string[]) =>
  tx.rows(kind === "location" ? placeCodes : trayCodes, [tx.actor.practiceId, ids]);

const placesCoded = statement(
  "give-place-codes",
  `update location w set code = each.code from unnest($2::uuid[], $3::text[]) as each (id, code)
   where w.practice_id = $1 and w.id = each.id and w.code is null`,
);
const traysCoded = statement(
  "give-tray-codes",
  `update tray t set code = each.code from unnest($2::uuid[], $3::text[]) as each (id, code)
   where t.practice_id = $1 and t.id = each.id and t.code is null`,
);
/** Where somebody else has just given a code, that one stays. */
export const giveCodes = (
  tx: Tx,
  kind: "location" | "tray",
  coded: readonly { id: string; code: string }[],
) =>
  tx.rows(kind === "location" ? placesCoded : traysCoded, [
    tx.actor.practiceId,
    coded.map(({ id }) => id),
    coded.map(({ code }) => code),
  ]);

const placesNamed = statement<{ id: string }>(
  "find-places-by-name",
  "select id from location where practice_id = $1 and lower(name) = lower($2) and not outside",
);
export const findPlacesByName = (tx: Tx, name: string) =>
  tx.rows(placesNamed, [tx.actor.practiceId, name]);
