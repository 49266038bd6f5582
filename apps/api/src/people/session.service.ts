import { Inject, Injectable } from "@nestjs/common";
import type { FastifyRequest } from "fastify";
import { DataSource } from "typeorm";
import type { DevicePeople, SessionView } from "#contracts/people";
import { isLoopback } from "../config.ts";
import { poolOf } from "../db/data-source.ts";
import { inCommand, inRead } from "../db/transaction.ts";
import { clearSessionCookie, readDeviceCookie, tokenHash } from "../http/cookies.ts";
import type { Answer, Call } from "../http/operation.ts";
import { Problem } from "../http/problem.ts";
import { DeviceRow } from "../db/tables.ts";
import { actorOf, beginSession, nobody, readSession } from "./begin-session.ts";
import * as store from "./people.store.ts";
import { countGuess, proveAgain } from "./proof.ts";
import { hashSecret, verifySecret } from "./secrets.ts";

@Injectable()
export class SessionService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  async signIn(call: Call<"signIn">): Promise<SessionView> {
    const name = call.body.signInName.trim().toLowerCase();
    const pool = poolOf(this.db);
    const found = await store.findSignIn(pool, name);
    await countGuess(pool, { subject: `name ${name}`, at: call.at }, () =>
      verifySecret(found?.password_hash ?? null, call.body.password),
    );
    refuseDistantDemonstration(found!.demonstration, call.request);
    const device = await this.deviceOf(call.request, found!.practice_id);
    return beginSession(this.db, call, {
      practiceId: found!.practice_id,
      organisationId: found!.organisation_id,
      personId: found!.person_id,
      deviceId: device?.device_id ?? null,
    });
  }

  /** A PIN is short, so it works only on a tablet that the practice has registered. */
  async switchPerson(call: Call<"switchPerson">): Promise<SessionView> {
    const { personId, pin } = call.body;
    const practiceId = readDeviceCookie(call.request)?.practiceId;
    const device = practiceId ? await this.deviceOf(call.request, practiceId) : undefined;
    if (!practiceId || !device) {
      throw new Problem(
        "wrong-credentials",
        "This device is not registered in the practice. Sign in with your password.",
      );
    }
    refuseDistantDemonstration(device.demonstration, call.request);
    const who = { practiceId, organisationId: device.organisation_id, personId };
    const reader = actorOf({ ...who, deviceId: device.device_id });
    await countGuess(poolOf(this.db), { subject: `pin ${personId}`, at: call.at }, async () => {
      const hashes = await inRead(this.db, { actor: reader, at: call.at }, (tx) =>
        store.findHashes(tx, personId),
      );
      return verifySecret(hashes?.pin_hash ?? null, pin);
    });
    return beginSession(this.db, call, { ...who, deviceId: device.device_id });
  }

  async listDevicePeople(call: Call<"listDevicePeople">): Promise<DevicePeople> {
    const practiceId = readDeviceCookie(call.request)?.practiceId;
    const found = practiceId ? await this.deviceOf(call.request, practiceId) : undefined;
    if (!practiceId || !found) return { device: null, people: [] };
    const reader = actorOf({
      practiceId,
      organisationId: found.organisation_id,
      personId: nobody,
      deviceId: found.device_id,
    });
    return inRead(this.db, { actor: reader, at: call.at }, async (tx) => {
      const device = await tx.manager.findOneByOrFail(DeviceRow, {
        practiceId,
        id: found.device_id,
      });
      const people = await store.listPeople(tx);
      return {
        device: { id: device.id, name: device.name },
        people: people
          .filter((person) => person.active && person.has_pin)
          .map((person) => ({ id: person.id, displayName: person.display_name })),
      };
    });
  }

  getSession(call: Call<"getSession">): Promise<SessionView> {
    return inRead(this.db, call, readSession);
  }

  async signOut(call: Call<"signOut">): Promise<Answer<"signOut">> {
    await inCommand(this.db, call, async (tx) => {
      await store.endSession(tx);
      tx.audit("signed-out", `person:${tx.actor.personId}`, {});
      return null;
    });
    clearSessionCookie(call.reply);
    call.reply.header("Clear-Site-Data", '"cache"');
    return { done: true };
  }

  async setPin(call: Call<"setPin">): Promise<Answer<"setPin">> {
    await proveAgain(this.db, call, { password: call.body.password });
    const pinHash = await hashSecret(call.body.pin);
    return inCommand(this.db, call, async (tx) => {
      await store.updatePin(tx, pinHash);
      tx.audit("pin-set", `person:${tx.actor.personId}`, {});
      return { done: true } as const;
    });
  }

  private async deviceOf(request: FastifyRequest, practiceId: string) {
    const cookie = readDeviceCookie(request);
    if (cookie?.practiceId !== practiceId) return undefined;
    return store.findDevice(poolOf(this.db), practiceId, tokenHash(cookie.token));
  }
}

function refuseDistantDemonstration(demonstration: boolean, request: FastifyRequest): void {
  if (!demonstration || isLoopback(request.ip)) return;
  throw new Problem(
    "demo-on-loopback-only",
    "The demonstration's passwords are published, so they work only on the machine that runs it. " +
      "Start with --empty for a practice of your own.",
  );
}
