import type { Pool } from "pg";
import type { Role, ToothNotation } from "#domain";
import type { ScannerProfile } from "#labels";
import { statement, type Tx } from "../db/transaction.ts";

export interface SignInRow {
  practice_id: string;
  organisation_id: string;
  person_id: string;
  password_hash: string;
  demonstration: boolean;
}

/** Before anybody is known there is no transaction with an actor: these run on the pool. */
export async function findSignIn(pool: Pool, name: string): Promise<SignInRow | undefined> {
  const { rows } = await pool.query<SignInRow>("select * from find_sign_in($1)", [name]);
  return rows[0];
}

export interface DeviceFound {
  device_id: string;
  organisation_id: string;
  demonstration: boolean;
}
export async function findDevice(
  pool: Pool,
  practiceId: string,
  token: Buffer,
): Promise<DeviceFound | undefined> {
  const { rows } = await pool.query<DeviceFound>("select * from find_device($1, $2)", [
    practiceId,
    token,
  ]);
  return rows[0];
}

export interface Installation {
  founded: boolean;
  demonstration: boolean;
  /** There is nothing but a demonstration whose making was cut short. */
  half_made: boolean;
}
export async function findInstallation(pool: Pool): Promise<Installation> {
  const { rows } = await pool.query<Installation>("select * from find_installation()");
  return rows[0]!;
}

const firstPractice = statement<{ made: boolean }>(
  "create-first-practice",
  "select create_first_practice($1::jsonb) as made",
);
export async function createFirstPractice(tx: Tx, facts: object): Promise<boolean> {
  return (await tx.rows(firstPractice, [JSON.stringify(facts)]))[0]!.made;
}

const completion = statement(
  "complete-practice",
  "update practice set complete = true where practice_id = $1",
);
export const completePractice = (tx: Tx) => tx.rows(completion, [tx.actor.practiceId]);

export async function countFailures(pool: Pool, subject: string, since: Date): Promise<number> {
  const { rows } = await pool.query<{ n: number }>(
    "select count(*)::int as n from sign_in_failure where subject = $1 and at > $2",
    [subject, since],
  );
  return rows[0]!.n;
}
export async function insertFailure(
  pool: Pool,
  failure: { subject: string; at: Date; id: string },
): Promise<void> {
  await pool.query("insert into sign_in_failure (subject, at, id) values ($1, $2, $3)", [
    failure.subject,
    failure.at,
    failure.id,
  ]);
}
export async function deleteFailures(pool: Pool, subject: string): Promise<void> {
  await pool.query("delete from sign_in_failure where subject = $1", [subject]);
}

export interface PersonFacts {
  id: string;
  display_name: string;
  sign_in_name: string;
  roles: Role[];
  active: boolean;
  has_pin: boolean;
}
const people = statement<PersonFacts>(
  "list-people",
  `select p.id, p.display_name, p.sign_in_name, p.active, p.pin_hash is not null as has_pin,
          array_agg(m.role order by m.role) as roles
   from membership m join person p on p.id = m.person_id
   where m.practice_id = $1 group by p.id order by p.display_name, p.id`,
);
export const listPeople = (tx: Tx) => tx.rows(people, [tx.actor.practiceId]);

const hashes = statement<{ password_hash: string; pin_hash: string | null; member: boolean }>(
  "person-hashes",
  `select p.password_hash, p.pin_hash,
          exists (select 1 from membership m where m.practice_id = $1
                  and m.person_id = p.id) as member
   from person p where p.id = $2 and p.active`,
);
export async function findHashes(tx: Tx, personId: string) {
  const [row] = await tx.rows(hashes, [tx.actor.practiceId, personId]);
  return row?.member ? row : undefined;
}

const person = statement(
  "insert-person",
  `insert into person (id, organisation_id, display_name, sign_in_name, password_hash, pin_hash,
                       created_at)
   values ($1, $2, $3, $4, $5, $6, $7)`,
);
const membership = statement(
  "insert-membership",
  "insert into membership (practice_id, person_id, role) select $1, $2, unnest($3::text[])",
);
export interface NewPerson {
  id: string;
  displayName: string;
  signInName: string;
  passwordHash: string;
  pinHash: string | null;
  roles: readonly Role[];
}
export async function insertPerson(tx: Tx, one: NewPerson): Promise<void> {
  const { organisationId, practiceId } = tx.actor;
  const names = [one.displayName, one.signInName, one.passwordHash, one.pinHash];
  await tx.rows(person, [one.id, organisationId, ...names, tx.at]);
  await tx.rows(membership, [practiceId, one.id, one.roles]);
}

const pin = statement("set-pin", "update person set pin_hash = $2 where id = $1");
export const updatePin = (tx: Tx, pinHash: string) => tx.rows(pin, [tx.actor.personId, pinHash]);

const session = statement(
  "insert-session",
  `insert into session (practice_id, id, person_id, device_id, token_hash, created_at, last_seen_at,
                        expires_at)
   values ($1, $2, $3, $4, $5, $6, $6, $7)`,
);
export const insertSession = (tx: Tx, one: { tokenHash: Buffer; expiresAt: Date }) => {
  const { practiceId, sessionId, personId, deviceId } = tx.actor;
  const ids = [practiceId, sessionId, personId, deviceId];
  return tx.rows(session, [...ids, one.tokenHash, tx.at, one.expiresAt]);
};
const sessionEnd = statement(
  "end-session",
  "update session set ended_at = $3 where practice_id = $1 and id = $2",
);
export const endSession = (tx: Tx) =>
  tx.rows(sessionEnd, [tx.actor.practiceId, tx.actor.sessionId, tx.at]);

export interface SessionFacts {
  display_name: string;
  has_pin: boolean;
  roles: Role[];
  practice_name: string;
  time_zone: string;
  language: "en" | "de";
  tooth_notation: ToothNotation;
  demonstration: boolean;
  device_id: string | null;
  device_name: string | null;
  expires_at: Date;
}
const sessionFacts = statement<SessionFacts>(
  "session-facts",
  `select p.display_name, p.pin_hash is not null as has_pin, pr.name as practice_name, pr.time_zone,
          pr.language, pr.tooth_notation, pr.demonstration, s.expires_at,
          d.id as device_id, d.name as device_name,
          array(select m.role from membership m where m.practice_id = $1 and m.person_id = p.id
                order by m.role) as roles
   from session s join person p on p.id = s.person_id
   join practice pr on pr.practice_id = s.practice_id
   left join device d on d.practice_id = s.practice_id and d.id = s.device_id
   where s.practice_id = $1 and s.id = $2`,
);
export async function getSessionFacts(tx: Tx): Promise<SessionFacts> {
  const [row] = await tx.rows(sessionFacts, [tx.actor.practiceId, tx.actor.sessionId]);
  return row!;
}

export interface ScannerRow {
  id: string;
  name: string;
  scanner_profile: ScannerProfile | null;
  scanner_set_up_at: Date | null;
}
const scannerOf = statement<ScannerRow>(
  "find-scanner",
  `select id, name, scanner_profile, scanner_set_up_at from device
   where practice_id = $1 and token_hash = $2 and revoked_at is null`,
);
/** The registered tablet of a token, with its scanner. */
export async function findScanner(tx: Tx, token: Buffer): Promise<ScannerRow | undefined> {
  return (await tx.rows(scannerOf, [tx.actor.practiceId, token]))[0];
}

const scannerUpdate = statement<ScannerRow>(
  "update-scanner",
  `update device set scanner_profile = $3::jsonb, scanner_set_up_at = $4
   where practice_id = $1 and token_hash = $2 and revoked_at is null
   returning id, name, scanner_profile, scanner_set_up_at`,
);
export async function updateScanner(
  tx: Tx,
  token: Buffer,
  { profile, setUpAt }: { profile: ScannerProfile; setUpAt: string | null },
): Promise<ScannerRow | undefined> {
  const told = [JSON.stringify(profile), setUpAt];
  return (await tx.rows(scannerUpdate, [tx.actor.practiceId, token, ...told]))[0];
}

const deviceEnd = statement<{ id: string }>(
  "revoke-device",
  `update device set revoked_at = coalesce(revoked_at, $3) where practice_id = $1 and id = $2
   returning id`,
);
export const revokeDevice = (tx: Tx, id: string) =>
  tx.rows(deviceEnd, [tx.actor.practiceId, id, tx.at]);
