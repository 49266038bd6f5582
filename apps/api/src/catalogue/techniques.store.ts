import type { KeptStep } from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

export interface TechniqueDetailRow {
  id: string;
  key: string;
  version: number;
  name: string;
  visit: "sealing" | "bonding";
  steps: KeptStep[];
  starter: boolean;
  retired: boolean;
  created_at: Date;
  created_by: string | null;
  made_from: { id: string; name: string; version: number } | null;
  confirmed_by: string | null;
  confirmed_at: Date | null;
  versions: { id: string; version: number; createdAt: string }[];
}
const detail = statement<TechniqueDetailRow>(
  "find-technique-detail",
  `select t.id, t.key, t.version, t.name, t.visit, t.steps, t.starter, t.retired, t.created_at,
     c.display_name as created_by, d.display_name as confirmed_by, t.confirmed_at,
     (select json_build_object('id', f.id, 'name', f.name, 'version', f.version)
      from technique f where f.id = t.made_from) as made_from,
     (select json_agg(json_build_object('id', v.id, 'version', v.version,
         'createdAt', v.created_at) order by v.version desc)
      from technique v
      where v.organisation_id = t.organisation_id and v.key = t.key) as versions
   from technique t
   left join person c on c.id = t.created_by
   left join person d on d.id = t.confirmed_by
   where t.organisation_id = $1 and t.id = $2`,
);
export async function findTechniqueDetail(
  tx: Tx,
  id: string,
): Promise<TechniqueDetailRow | undefined> {
  return (await tx.rows(detail, [tx.actor.organisationId, id]))[0];
}

export interface NewTechnique {
  id: string;
  key: string;
  version: number;
  name: string;
  visit: "sealing" | "bonding";
  steps: readonly KeptStep[];
  madeFrom: string | null;
}
const added = statement(
  "insert-technique",
  `insert into technique (id, organisation_id, key, version, name, visit, steps, starter, retired,
     created_at, created_by, made_from)
   values ($1, $2, $3, $4, $5, $6, $7, false, false, $8, $9, $10)`,
);
export const insertTechniqueVersion = (tx: Tx, one: NewTechnique) => {
  const what = [one.key, one.version, one.name, one.visit, JSON.stringify(one.steps)];
  const { organisationId, personId } = tx.actor;
  return tx.rows(added, [one.id, organisationId, ...what, tx.at, personId, one.madeFrom]);
};

const retiring = statement<{ id: string }>(
  "retire-technique",
  `update technique set retired = true
   where organisation_id = $1 and id = $2 and not retired returning id`,
);
/** False where it is retired already, as when somebody made another version meanwhile. */
export async function retireTechnique(tx: Tx, id: string): Promise<boolean> {
  return (await tx.rows(retiring, [tx.actor.organisationId, id])).length === 1;
}

const confirming = statement(
  "confirm-technique",
  `update technique set confirmed_by = $3, confirmed_at = $4
   where organisation_id = $1 and id = $2`,
);
export const confirmTechnique = (tx: Tx, id: string) =>
  tx.rows(confirming, [tx.actor.organisationId, id, tx.actor.personId, tx.at]);
