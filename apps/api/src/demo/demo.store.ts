import { statement, type Tx } from "../db/transaction.ts";

const zone = statement<{ time_zone: string }>(
  "demo-time-zone",
  "select time_zone from practice where practice_id = $1",
);
export async function getTimeZone(tx: Tx): Promise<string> {
  return (await tx.rows(zone, [tx.actor.practiceId]))[0]!.time_zone;
}

const containers = statement<{ lot: string; id: string; code: string }>(
  "demo-containers",
  "select lot, id, code from container_now where practice_id = $1 order by id",
);
/** In the order received: an id of version 7 orders by the time it was made. */
export const listContainersByAge = (tx: Tx) => tx.rows(containers, [tx.actor.practiceId]);

const left = statement<{ id: string }>(
  "demo-trays-left",
  `select t.id from tray t
   where t.practice_id = $1 and t.state <> 'cleared'
     and not exists (select 1 from record r
       where r.practice_id = t.practice_id and r.tray_id = t.id and r.state = 'draft')`,
);
/** Trays of other days that nobody put away, but for those whose record is not signed. */
export const listTraysLeft = (tx: Tx) => tx.rows(left, [tx.actor.practiceId]);
