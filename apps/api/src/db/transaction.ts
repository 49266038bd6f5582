import { createHash } from "node:crypto";
import type { Writable } from "node:stream";
import type { PoolClient } from "pg";
import type { DataSource, EntityManager } from "typeorm";
import { canonicalJson } from "#domain";
import { Problem } from "../http/problem.ts";
import type { Actor } from "../http/actor.ts";
import { tellCommitted } from "./commits.ts";
import { isRetryable } from "./pg-problems.ts";

declare const branded: unique symbol;

/** One SQL statement under a name of its own, so that PostgreSQL plans it once a connection. */
export interface Statement<Row> {
  name: string;
  text: string;
  /** Never set; carries the type of a row. */
  row?: Row;
}
export const statement = <Row>(name: string, text: string): Statement<Row> => ({ name, text });

/**
 * A transaction under way, with its actor set in the database. Only this file makes one, and every
 * store function asks for it first: nobody can forget it.
 */
export interface Tx {
  readonly [branded]: true;
  readonly actor: Actor;
  /** The moment of the request; one for the whole transaction. */
  readonly at: Date;
  rows<Row>(statement: Statement<Row>, values: unknown[]): Promise<Row[]>;
  /** TypeORM on this very connection, for plain reads and inserts of reference data. */
  readonly manager: EntityManager;
  /** Notes a change for the audit chain; written at the end, in this transaction. */
  audit(action: string, subject: string, change: Record<string, unknown>): void;
}

interface AuditNote {
  action: string;
  subject: string;
  change: string;
}

/** What a submission is known by when it comes again. */
export interface Submission {
  key: string;
  operation: string;
  /** Everything the effect depends on. */
  content: unknown;
  status: number;
}

const attempts = 3;

async function onConnection<T>(
  db: DataSource,
  work: (client: PoolClient, manager: EntityManager) => Promise<T>,
): Promise<T> {
  for (let attempt = 1; ; attempt++) {
    const runner = db.createQueryRunner();
    try {
      const client = (await runner.connect()) as PoolClient;
      try {
        return await work(client, runner.manager);
      } catch (error) {
        await client.query("ROLLBACK").catch(() => undefined);
        if (attempt === attempts || !isRetryable(error)) throw error;
      }
    } finally {
      await runner.release();
    }
  }
}

/** Holds what is sent in one turn of the event loop, so that it leaves in one piece. */
function sendTogether(client: PoolClient): void {
  const { stream } = (client as unknown as { connection: { stream: Writable } }).connection;
  if (stream.writableCorked > 0) return;
  stream.cork();
  process.nextTick(() => stream.uncork());
}

function makeTx(
  client: PoolClient,
  manager: EntityManager,
  told: { actor: Actor; at: Date; notes: AuditNote[] },
): Tx {
  return {
    actor: told.actor,
    at: told.at,
    manager,
    rows: async <Row>(query: Statement<Row>, values: unknown[]) => {
      sendTogether(client);
      return (await client.query({ name: query.name, text: query.text, values })).rows as Row[];
    },
    audit: (action, subject, change) =>
      void told.notes.push({ action, subject, change: canonicalJson(change) }),
  } as Tx;
}

const setActor = statement("set-actor", "select set_actor($1, $2, $3, $4)");

/** Reads in one transaction: one practice, as one moment shows it. */
export function inRead<T>(
  db: DataSource,
  told: { actor: Actor; at: Date },
  work: (tx: Tx) => Promise<T>,
): Promise<T> {
  const { practiceId, organisationId, personId, deviceId } = told.actor;
  return onConnection(db, async (client, manager) => {
    sendTogether(client);
    await Promise.all([
      client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"),
      client.query({ ...setActor, values: [practiceId, organisationId, personId, deviceId] }),
    ]);
    const answer = await work(makeTx(client, manager, { ...told, notes: [] }));
    await client.query("COMMIT");
    return answer;
  });
}

interface Begun {
  known: boolean;
  same: boolean;
  answer: string | null;
}
const beginCommand = statement<Begun>(
  "begin-command",
  "select * from begin_command($1, $2, $3, $4, $5, $6, $7, $8)",
);
const finishCommand = statement(
  "finish-command",
  "select finish_command($1, $2, $3, $4, $5, $6, $7, $8)",
);

/**
 * Does one submission once: claims its key, runs `work`, appends the audit entries, keeps the
 * answer, all in one transaction. The same submission again gets the first answer; another one with
 * the same key is refused. The body may run up to three times, so it touches nothing but `tx`.
 * Without a submission (signing in, seeding) the work is done as often as it is asked for.
 */
export function inCommand<T>(
  db: DataSource,
  told: { actor: Actor; at: Date; submission: Submission | null },
  work: (tx: Tx) => Promise<T>,
): Promise<T> {
  const { actor, at } = told;
  return onConnection(db, async (client, manager) => {
    const notes: AuditNote[] = [];
    sendTogether(client);
    // The work's first statements follow the claim in one piece: they wait for it on the server.
    // Where the claim finds an earlier answer, whatever they did or met is rolled back unseen.
    const [, claim, done] = await Promise.allSettled([
      client.query("BEGIN"),
      begin(client, told),
      work(makeTx(client, manager, { actor, at, notes })),
    ]);
    if (claim.status === "rejected") throw claim.reason;
    if (claim.value?.known) {
      await client.query("ROLLBACK");
      return firstAnswer<T>(claim.value);
    }
    if (done.status === "rejected") throw done.reason;
    await finish(client, told, { notes, answer: done.value });
    tellCommitted(db, { actor, at, changes: notes });
    return done.value;
  });
}

async function finish(
  client: PoolClient,
  told: { actor: Actor; at: Date; submission: Submission | null },
  outcome: { notes: AuditNote[]; answer: unknown },
): Promise<void> {
  const { practiceId, personId, deviceId } = told.actor;
  const { key = "", status = 200 } = told.submission ?? {};
  const kept = [JSON.stringify(outcome.notes), key, status, JSON.stringify(outcome.answer)];
  sendTogether(client);
  await Promise.all([
    client.query({ ...finishCommand, values: [practiceId, personId, deviceId, told.at, ...kept] }),
    client.query("COMMIT"),
  ]);
}

async function begin(
  client: PoolClient,
  told: { actor: Actor; at: Date; submission: Submission | null },
): Promise<Begun | undefined> {
  const { practiceId, organisationId, personId, deviceId } = told.actor;
  const ids = [practiceId, organisationId, personId, deviceId];
  if (!told.submission) {
    await client.query({ ...setActor, values: ids });
    return undefined;
  }
  const { key, operation, content } = told.submission;
  const fingerprint = createHash("sha256").update(JSON.stringify(content)).digest();
  const values = [...ids, key, operation, fingerprint, told.at];
  return (await client.query<Begun>({ ...beginCommand, values })).rows[0];
}

function firstAnswer<T>(begun: Begun): T {
  if (!begun.same) {
    throw new Problem(
      "idempotency-key-reused",
      "This Idempotency-Key was used for another request. Make a new key for a new request.",
    );
  }
  return JSON.parse(begun.answer ?? "null") as T;
}
