/**
 * A later version of a record: its rows are copied, those left out are not. The version before is
 * superseded by the database as soon as the later one is there.
 */
import type { AmendRecord } from "#contracts/records";
import { statement, type Tx } from "../db/transaction.ts";

const version = statement(
  "insert-record-version",
  `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, visit, state,
     verdict, started_by, started_at, mode, surfaces, seal_id, told_at, version, supersedes_id,
     amends, amend_reason)
   select practice_id, $3, tray_id, patient_id, tooth, technique_id, visit, 'draft', verdict,
     started_by, started_at, mode, surfaces, case when $6 then $7 else seal_id end, told_at,
     version + 1, id, $4, $5
   from record where practice_id = $1 and id = $2`,
);
export const insertVersion = (
  tx: Tx,
  ids: { of: string; id: string },
  { amends, reason, sealId }: Pick<AmendRecord, "amends" | "reason" | "sealId">,
) => {
  const seal = [sealId !== undefined, sealId ?? null];
  return tx.rows(version, [tx.actor.practiceId, ids.of, ids.id, amends, reason, ...seal]);
};

// What is carried over keeps who told it and when.
const events = statement(
  "copy-record-events",
  `insert into record_event (practice_id, record_id, sequence, kind, step_key, facts, occurred_at,
     recorded_at, person_id)
   select practice_id, $3, row_number() over (order by sequence), kind, step_key, facts,
     occurred_at, recorded_at, person_id
   from record_event
   where practice_id = $1 and record_id = $2 and not (sequence = any($4))`,
);
export const copyEvents = (tx: Tx, ids: { of: string; id: string }, leftOut: readonly number[]) =>
  tx.rows(events, [tx.actor.practiceId, ids.of, ids.id, leftOut]);

const materials = statement(
  "copy-step-materials",
  `insert into step_material (practice_id, id, record_id, step_key, product_id, lot_id,
     container_id, not_scanned_reason, patient_id, tooth, used_at, person_id)
   select practice_id, uuidv7(), $3, step_key, product_id, lot_id, container_id,
     not_scanned_reason, patient_id, tooth, used_at, person_id
   from step_material
   where practice_id = $1 and record_id = $2 and not (id = any($4))
   order by used_at, id`,
);
export const copyMaterials = (
  tx: Tx,
  ids: { of: string; id: string },
  leftOut: readonly string[],
) => tx.rows(materials, [tx.actor.practiceId, ids.of, ids.id, leftOut]);
