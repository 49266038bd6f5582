import type { FastifyReply } from "fastify";
import type { DataSource } from "typeorm";
import type { SessionView } from "#contracts/people";
import { inCommand, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Actor } from "../http/actor.ts";
import { newToken, tokenHash, writeSessionCookie } from "../http/cookies.ts";
import { getSessionFacts, insertSession } from "./people.store.ts";

const sessionSeconds = 7 * 86_400;
export const nobody = "00000000-0000-0000-0000-000000000000";

type Who = Pick<Actor, "practiceId" | "organisationId" | "personId" | "deviceId">;

/** Somebody about to sign in: known by id, without a session yet. */
export function actorOf(who: Who): Actor {
  return { ...who, sessionId: newId(), roles: [], timeZone: "UTC", language: "en" };
}

/** Starts a session of somebody who has just proved who he or she is; always with a new token. */
export async function beginSession(
  db: DataSource,
  call: { at: Date; reply: FastifyReply },
  who: Who,
): Promise<SessionView> {
  const token = newToken();
  const expiresAt = new Date(call.at.getTime() + sessionSeconds * 1000);
  const told = { actor: actorOf(who), at: call.at, submission: null };
  const view = await inCommand(db, told, async (tx) => {
    await insertSession(tx, { tokenHash: tokenHash(token), expiresAt });
    tx.audit("signed-in", `person:${who.personId}`, {});
    return readSession(tx);
  });
  writeSessionCookie(call.reply, { practiceId: who.practiceId, token }, sessionSeconds);
  return view;
}

export async function readSession(tx: Tx): Promise<SessionView> {
  const facts = await getSessionFacts(tx);
  const { device_id: deviceId, device_name: deviceName } = facts;
  return {
    person: {
      id: tx.actor.personId,
      displayName: facts.display_name,
      roles: facts.roles,
      hasPin: facts.has_pin,
    },
    practice: {
      id: tx.actor.practiceId,
      name: facts.practice_name,
      timeZone: facts.time_zone,
      language: facts.language,
      toothNotation: facts.tooth_notation,
      demonstration: facts.demonstration,
    },
    device: deviceId && deviceName ? { id: deviceId, name: deviceName } : null,
    expiresAt: facts.expires_at.toISOString(),
  };
}
