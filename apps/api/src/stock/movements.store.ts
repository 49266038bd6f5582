/** The only writer of the ledger. */
import { statement, type Tx } from "../db/transaction.ts";

export interface NewMovement {
  id: string;
  lotId: string;
  containerId: string | null;
  fromLocationId: string;
  toLocationId: string;
  quantity: number;
  reason: string;
  note?: string;
  occurredAt?: string | undefined;
  reversesId?: string;
}

const insert = statement(
  "insert-movement",
  `insert into movement (practice_id, id, lot_id, container_id, from_location_id, to_location_id,
     quantity, reason, note, occurred_at, recorded_at, person_id, device_id, reverses_id)
   values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`,
);
export const insertMovement = (tx: Tx, one: NewMovement) =>
  tx.rows(insert, [
    tx.actor.practiceId,
    one.id,
    one.lotId,
    one.containerId,
    one.fromLocationId,
    one.toLocationId,
    one.quantity,
    one.reason,
    one.note ?? "",
    one.occurredAt ?? tx.at,
    tx.at,
    tx.actor.personId,
    tx.actor.deviceId,
    one.reversesId ?? null,
  ]);

// One statement for a whole pack: each row fires the balance trigger in turn.
const received = statement(
  "insert-received",
  `insert into movement (practice_id, id, lot_id, container_id, from_location_id, to_location_id,
     quantity, reason, occurred_at, recorded_at, person_id, device_id)
   select $1, each.id, $2, each.container, $3, $4, 1, 'received', $5, $5, $6, $7
   from unnest($8::uuid[], $9::uuid[]) as each (id, container)`,
);
export const insertReceived = (
  tx: Tx,
  one: {
    lotId: string;
    fromLocationId: string;
    toLocationId: string;
    movementIds: string[];
    containerIds: string[];
  },
) =>
  tx.rows(received, [
    tx.actor.practiceId,
    one.lotId,
    one.fromLocationId,
    one.toLocationId,
    tx.at,
    tx.actor.personId,
    tx.actor.deviceId,
    one.movementIds,
    one.containerIds,
  ]);

export interface MovementRow {
  id: string;
  lot_id: string;
  container_id: string | null;
  from_location_id: string;
  to_location_id: string;
  from_name: string;
  to_name: string;
  quantity: number;
  reason: string;
  note: string;
  occurred_at: Date;
  recorded_at: Date;
  person: string;
  reverses_id: string | null;
  reversed_by: string | null;
}
const columns = `select m.id, m.lot_id, m.container_id, m.from_location_id, m.to_location_id,
    f.name as from_name, t.name as to_name, m.quantity, m.reason, m.note, m.occurred_at,
    m.recorded_at, p.display_name as person, m.reverses_id, r.id as reversed_by
  from movement m
  join location f on f.practice_id = m.practice_id and f.id = m.from_location_id
  join location t on t.practice_id = m.practice_id and t.id = m.to_location_id
  join person p on p.id = m.person_id
  left join movement r on r.practice_id = m.practice_id and r.reverses_id = m.id`;

const byId = statement<MovementRow>(
  "find-movement",
  `${columns} where m.practice_id = $1 and m.id = $2`,
);
export async function findMovement(tx: Tx, id: string): Promise<MovementRow | undefined> {
  return (await tx.rows(byId, [tx.actor.practiceId, id]))[0];
}

const ofContainer = statement<MovementRow>(
  "list-container-movements",
  `${columns} where m.practice_id = $1 and m.container_id = $2 order by m.recorded_at, m.id`,
);
export const listContainerMovements = (tx: Tx, containerId: string) =>
  tx.rows(ofContainer, [tx.actor.practiceId, containerId]);

/** The ledger's own statement, for whoever measures what it costs alone. */
export const ledgerStatements = { insert };
