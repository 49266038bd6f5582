import { statement, type Tx } from "../db/transaction.ts";

interface LinkedOne {
  id: string;
  signed_at: string;
  sealed_at: string;
  bonded_at: string;
}
export interface LinkedRow {
  seal: LinkedOne | null;
  bonding: LinkedOne | null;
}

// All versions of a record share tray and tooth: a link to any of them is one to the newest.
const newest = (one: string, of: string): string => `${one}.practice_id = ${of}.practice_id
    and ${one}.tray_id = ${of}.tray_id and ${one}.tooth = ${of}.tooth and ${one}.state = 'signed'`;
const linkOf = (one: string, told: { seal: string; bonding: string }): string =>
  `json_build_object('id', ${one}.id, 'signed_at', ${one}.signed_at,
     'sealed_at', ${told.seal}.started_at, 'bonded_at', ${told.bonding}.started_at)`;

const linked = statement<LinkedRow>(
  "find-linked-records",
  `select (
     select ${linkOf("s", { seal: "s", bonding: "r" })}
     from record v join record s on ${newest("s", "v")}
     where v.practice_id = r.practice_id and v.id = r.seal_id) as seal,
   (select ${linkOf("b", { seal: "r", bonding: "b" })}
     from record v
     join record b on b.practice_id = v.practice_id and b.seal_id = v.id and b.state = 'signed'
     where v.practice_id = r.practice_id and v.tray_id = r.tray_id and v.tooth = r.tooth
     order by b.signed_at desc, b.version desc limit 1) as bonding
   from record r where r.practice_id = $1 and r.id = $2`,
);
/** The seal that a bonding record builds on, and the signed bonding of a sealing record. */
export async function findLinked(tx: Tx, id: string): Promise<LinkedRow> {
  return (await tx.rows(linked, [tx.actor.practiceId, id]))[0]!;
}
