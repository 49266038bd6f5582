/** What can be tried on a practice in SQL alone: as the application in a name, or as the owner. */
import { createHash } from "node:crypto";
import type pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";

export const placeKinds = [
  "store",
  "operatory",
  "quarantine",
  "supplier",
  "used",
  "discarded",
  "returned",
  "lost",
  "count-difference",
] as const;
export type PlaceKind = (typeof placeKinds)[number];

export interface ScenePractice {
  id: string;
  organisation: string;
  dentist: string;
  assistant: string;
  product: string;
  technique: string;
  lot: string;
  /** A container of the lot, in the store. */
  container: string;
  patient: string;
  tray: string;
  draft: string;
  signed: string;
  places: Record<PlaceKind, string>;
}

/** Who acts; without a practice nobody does. */
export interface Acting {
  practice: Pick<ScenePractice, "id" | "organisation">;
  person: string;
}
export const asDentist = (practice: ScenePractice): Acting => ({
  practice,
  person: practice.dentist,
});
export const asAssistant = (practice: ScenePractice): Acting => ({
  practice,
  person: practice.assistant,
});

/** One transaction in somebody's name. */
export async function act<T>(
  client: pg.Client,
  { practice, person }: Acting,
  work: (client: pg.Client) => Promise<T>,
): Promise<T> {
  await client.query("begin");
  try {
    await client.query("select set_actor($1, $2, $3, null)", [
      practice.id,
      practice.organisation,
      person,
    ]);
    const answer = await work(client);
    await client.query("commit");
    return answer;
  } catch (error) {
    await client.query("rollback");
    throw error;
  }
}

/** One transaction of the owner's in which no trigger and no foreign key stands in the way. */
export async function tamper<T>(
  owner: pg.Client,
  work: (owner: pg.Client) => Promise<T>,
): Promise<T> {
  await owner.query("begin");
  try {
    await owner.query("set local session_replication_role = 'replica'");
    const answer = await work(owner);
    await owner.query("commit");
    return answer;
  } catch (error) {
    await owner.query("rollback");
    throw error;
  }
}

/** What PostgreSQL said no with: the constraint's name where it has one, else the code. */
export async function refusalOf(attempt: Promise<unknown>): Promise<string> {
  try {
    await attempt;
  } catch (error) {
    const { constraint, code, message } = error as pg.DatabaseError;
    return constraint ?? code ?? message;
  }
  return "not refused";
}

export const count = async (client: pg.Client, text: string, values: unknown[] = []) =>
  Number(
    (await client.query<{ n: string }>(`select count(*) as n from ${text}`, values)).rows[0]!.n,
  );

export interface Move {
  lot?: string;
  container?: string;
  from: PlaceKind;
  to: PlaceKind;
  quantity?: number;
  reason?: string;
  reverses?: string;
  occurredAt?: Date;
}
/** Inserts one movement; gives its id. */
export async function move(client: pg.Client, of: ScenePractice, told: Move): Promise<string> {
  const id = newId();
  const at = new Date();
  await client.query(
    `insert into movement (practice_id, id, lot_id, container_id, from_location_id, to_location_id,
       quantity, reason, occurred_at, recorded_at, person_id, reverses_id)
     values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12)`,
    [
      ...[of.id, id, told.lot ?? of.lot, told.container ?? null],
      ...[of.places[told.from], of.places[told.to]],
      ...[told.quantity ?? 1, told.reason ?? (told.reverses ? "reversed" : "moved")],
      ...[told.occurredAt ?? at, at, of.assistant, told.reverses ?? null],
    ],
  );
  return id;
}

export async function addLot(client: pg.Client, of: ScenePractice, lot: string): Promise<string> {
  const id = newId();
  await client.query(
    `insert into lot (practice_id, id, product_id, lot, lot_plain, lot_look, created_at)
     values ($1, $2, $3, $4, $4, $4, now())`,
    [of.id, id, of.product, lot],
  );
  return id;
}

/** A container at the supplier, as a delivery starts it. */
export async function addContainer(
  client: pg.Client,
  of: ScenePractice,
  told: { code: string; lot?: string; serial?: string; at?: PlaceKind; product?: string },
): Promise<string> {
  const id = newId();
  await client.query(
    `insert into container (practice_id, id, code, lot_id, product_id, serial, location_id,
       created_at)
     values ($1, $2, $3, $4, $5, $6, $7, now())`,
    [
      ...[of.id, id, told.code, told.lot ?? of.lot, told.product ?? of.product],
      ...[told.serial ?? null, of.places[told.at ?? "supplier"]],
    ],
  );
  return id;
}

/** A tray of one tooth, open. */
export async function addTray(client: pg.Client, of: ScenePractice): Promise<string> {
  const id = newId();
  await client.query(
    `insert into tray (practice_id, id, patient_id, tooth, technique_id, location_id,
       appointment_at, state, created_by, created_at)
     values ($1, $2, $3, '16', $4, $5, now(), 'setting', $6, now())`,
    [of.id, id, of.patient, of.technique, of.places.operatory, of.assistant],
  );
  await client.query("insert into tray_tooth values ($1, $2, '16', 1)", [of.id, id]);
  return id;
}

export async function addRecord(
  client: pg.Client,
  of: ScenePractice,
  told: {
    tray?: string;
    version?: number;
    supersedes?: string;
    state?: string;
    tooth?: string;
    visit?: string;
    seal?: string;
    amends?: "addition" | "correction";
  } = {},
): Promise<string> {
  const id = newId();
  await client.query(
    `insert into record (practice_id, id, tray_id, patient_id, tooth, technique_id, state,
       version, verdict, started_by, started_at, supersedes_id, amends, amend_reason,
       visit, seal_id)
     values ($1, $2, $3, $4, $5, $6, $7, $8, '{}', $9,
       coalesce((select started_at from record where practice_id = $1 and id = $10), now()),
       $10, $11, $12, $13, $14)`,
    [
      ...[of.id, id, told.tray ?? of.tray, of.patient, told.tooth ?? "16", of.technique],
      ...[told.state ?? "draft", told.version ?? 1, of.dentist, told.supersedes ?? null],
      ...(told.supersedes === undefined
        ? [null, null]
        : [told.amends ?? "addition", "something to add"]),
      ...[told.visit ?? "sealing", told.seal ?? null],
    ],
  );
  return id;
}

export async function addEvent(
  client: pg.Client,
  of: ScenePractice,
  told: { record: string; sequence: number },
): Promise<void> {
  await client.query(
    `insert into record_event (practice_id, record_id, sequence, kind, step_key, facts, occurred_at,
       recorded_at, person_id)
     values ($1, $2, $3, 'step-done', 'prime', '{"seconds": 20}', now(), now(), $4)`,
    [of.id, told.record, told.sequence, of.dentist],
  );
}

export async function addMaterial(
  client: pg.Client,
  of: ScenePractice,
  told: { record: string; patient?: string; tooth?: string },
): Promise<string> {
  const id = newId();
  await client.query(
    `insert into step_material (practice_id, id, record_id, step_key, product_id, lot_id,
       container_id, patient_id, tooth, used_at, person_id)
     values ($1, $2, $3, 'prime', $4, $5, $6, $7, $8, now(), $9)`,
    [
      ...[of.id, id, told.record, of.product, of.lot, of.container],
      ...[told.patient ?? of.patient, told.tooth ?? "16", of.dentist],
    ],
  );
  return id;
}

/** Signs as the server does: what is sealed names the hash of the record's rows. */
export async function sign(
  client: pg.Client,
  of: ScenePractice,
  told: { record: string; by?: string; hash?: Buffer },
): Promise<void> {
  const by = told.by ?? of.dentist;
  const at = new Date();
  const { rows } = await client.query<{ text: string }>("select record_rows($1, $2) as text", [
    of.id,
    told.record,
  ]);
  const sealed = createHash("sha256").update(rows[0]!.text).digest("hex");
  const canonical = JSON.stringify({ rows: sealed, signedAt: at.toISOString(), signedBy: by });
  const hash = told.hash ?? createHash("sha256").update(canonical).digest();
  await client.query(
    `update record set state = 'signed', signed_by = $3, signed_at = $4, canonical = $5, hash = $6
     where practice_id = $1 and id = $2`,
    [of.id, told.record, by, at, canonical, hash],
  );
  await audit(client, of, {
    person: by,
    action: "record-signed",
    subject: `record:${told.record}`,
    change: { hash: hash.toString("hex") },
  });
}

export async function audit(
  client: pg.Client,
  of: ScenePractice,
  entry: { person: string; action: string; subject: string; change: object; device?: string },
): Promise<void> {
  await client.query("select append_audit($1, $2, $3, now(), $4, $5, $6)", [
    ...[of.id, entry.person, entry.device ?? null],
    ...[entry.action, entry.subject, JSON.stringify(entry.change)],
  ]);
}

const insertOverride = `insert into finding_override (practice_id, id, tray_id, code, subject,
    finding, reason, person_id, at)
  values ($1, $2, $3, 'past-use-by', $4, '{}', 'no other at hand', $5, now())`;
export const override = (
  client: pg.Client,
  of: ScenePractice,
  told: { person: string; subject: string },
) => client.query(insertOverride, [of.id, newId(), of.tray, told.subject, told.person]);
