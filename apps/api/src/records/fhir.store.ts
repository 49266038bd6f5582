import { statement, type Tx } from "../db/transaction.ts";

/** What a material was, as a catalogue and a label name it. */
export interface DeviceRow {
  /** The material's id. */
  id: string;
  labeler: string;
  serial: string | null;
  /** Of the smallest pack that has one. */
  scheme: "gs1-gtin" | "hibc" | "ppn" | null;
  identifier: string | null;
}
const devices = statement<DeviceRow>(
  "list-record-devices",
  `select m.id, p.labeler, c.serial, i.scheme, i.value as identifier
   from step_material m
   join product p on p.id = m.product_id
   left join container c on c.practice_id = m.practice_id and c.id = m.container_id
   left join lateral (
     select o.scheme, o.value from product_identifier o where o.product_id = p.id
     order by array_position(array['unit', 'box', 'case'], o.pack_level), o.scheme, o.value
     limit 1) i on true
   where m.practice_id = $1 and m.record_id = $2 order by m.used_at, m.id`,
);
export const listDevices = (tx: Tx, recordId: string) =>
  tx.rows(devices, [tx.actor.practiceId, recordId]);

const signer = statement<{ patient_id: string; signed_by: string }>(
  "record-people",
  `select patient_id, signed_by from record
   where practice_id = $1 and id = $2 and signed_by is not null`,
);
/** The patient and the signer of a signed record; undefined for any other. */
export async function findPeople(tx: Tx, recordId: string) {
  return (await tx.rows(signer, [tx.actor.practiceId, recordId]))[0];
}
