import type { Pool } from "pg";
import type { DataSource } from "typeorm";
import { poolOf } from "../db/data-source.ts";
import { inRead } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Actor } from "../http/actor.ts";
import { Problem } from "../http/problem.ts";
import { countFailures, deleteFailures, findHashes, insertFailure } from "./people.store.ts";
import { verifySecret } from "./secrets.ts";

const failuresAllowed = 10;
const windowMs = 15 * 60_000;

interface Guess {
  subject: string;
  at: Date;
}

/** Lets somebody try a secret at most ten times in a quarter of an hour (ASVS 5.0 6.3.1). */
export function countGuess(
  pool: Pool,
  guess: Guess,
  matches: () => Promise<boolean>,
): Promise<void> {
  return inTurn(guess.subject, () => tryOnce(pool, guess, matches));
}

/** The end of the latest guess at each secret that is being tried. */
const underWay = new Map<string, Promise<void>>();

// One guess at a secret after another: many sent at once would all be counted before any failed.
async function inTurn(subject: string, guess: () => Promise<void>): Promise<void> {
  const turn = (underWay.get(subject) ?? Promise.resolve()).then(guess);
  const end = turn.catch(() => undefined);
  underWay.set(subject, end);
  try {
    await turn;
  } finally {
    if (underWay.get(subject) === end) underWay.delete(subject);
  }
}

async function tryOnce(
  pool: Pool,
  { subject, at }: Guess,
  matches: () => Promise<boolean>,
): Promise<void> {
  const since = new Date(at.getTime() - windowMs);
  const failures = await countFailures(pool, subject, since);
  if (failures >= failuresAllowed) {
    throw new Problem(
      "locked-out",
      "Too many failed attempts. Wait 15 minutes, or ask the owner for help.",
      { retryAfterSeconds: windowMs / 1000 },
    );
  }
  if (!(await matches())) {
    await insertFailure(pool, { subject, at, id: newId() });
    throw new Problem("wrong-credentials", "That does not match. Check both and try again.");
  }
  if (failures > 0) await deleteFailures(pool, subject);
}

/** Asks the signed-in person once more, with password or PIN. */
export async function proveAgain(
  db: DataSource,
  told: { actor: Actor; at: Date },
  given: { password?: string | undefined; pin?: string | undefined },
): Promise<void> {
  const { personId } = told.actor;
  await countGuess(poolOf(db), { subject: `person ${personId}`, at: told.at }, async () => {
    const hashes = await inRead(db, told, (tx) => findHashes(tx, personId));
    return given.password === undefined
      ? verifySecret(hashes?.pin_hash ?? null, given.pin ?? "")
      : verifySecret(hashes?.password_hash ?? null, given.password);
  });
}
