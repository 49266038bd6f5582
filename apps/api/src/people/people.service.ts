import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { DeviceView } from "#contracts/people";
import { inCommand, inRead } from "../db/transaction.ts";
import { DeviceRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import { deviceToken, readSessionCookie, tokenHash, writeDeviceCookie } from "../http/cookies.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound } from "../http/problem.ts";
import * as store from "./people.store.ts";
import { hashSecret } from "./secrets.ts";

@Injectable()
export class PeopleService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listPeople(call: Call<"listPeople">): Promise<Answer<"listPeople">> {
    return inRead(this.db, call, async (tx) => ({
      people: (await store.listPeople(tx)).map(personView),
    }));
  }

  async addPerson(call: Call<"addPerson">): Promise<Answer<"addPerson">> {
    const { password, ...told } = call.body;
    const passwordHash = await hashSecret(password);
    return inCommand(this.db, call, async (tx) => {
      const roles = [...new Set(told.roles)].sort();
      const id = newId();
      await store.insertPerson(tx, { ...told, id, passwordHash, pinHash: null, roles });
      tx.audit("person-added", `person:${id}`, { ...told, roles });
      return { ...told, id, roles, active: true, hasPin: false };
    });
  }

  listDevices(call: Call<"listDevices">): Promise<Answer<"listDevices">> {
    return inRead(this.db, call, async (tx) => {
      const devices = await tx.manager.find(DeviceRow, {
        where: { practiceId: tx.actor.practiceId },
        order: { registeredAt: "ASC", id: "ASC" },
      });
      return { devices: devices.map(deviceView) };
    });
  }

  /** The tablet this request comes from becomes one of the practice's, by a cookie of its own. */
  async registerDevice(call: Call<"registerDevice">): Promise<Answer<"registerDevice">> {
    const session = readSessionCookie(call.request)!;
    const view = await inCommand(this.db, call, async (tx) => {
      const device = tx.manager.create(DeviceRow, {
        practiceId: tx.actor.practiceId,
        id: newId(),
        name: call.body.name,
        registeredBy: tx.actor.personId,
        registeredAt: tx.at,
        revokedAt: null,
      });
      device.tokenHash = tokenHash(deviceToken(session.token, device.id));
      await tx.manager.insert(DeviceRow, device);
      tx.audit("device-registered", `device:${device.id}`, { name: device.name });
      return deviceView(device);
    });
    const token = deviceToken(session.token, view.id);
    writeDeviceCookie(call.reply, { practiceId: session.practiceId, token });
    return view;
  }

  revokeDevice(call: Call<"revokeDevice">): Promise<Answer<"revokeDevice">> {
    return inCommand(this.db, call, async (tx) => {
      const [revoked] = await store.revokeDevice(tx, call.params.deviceId);
      if (!revoked) throw notFound("device");
      tx.audit("device-revoked", `device:${revoked.id}`, {});
      return { done: true } as const;
    });
  }
}

const deviceView = (device: DeviceRow): DeviceView => ({
  id: device.id,
  name: device.name,
  registeredAt: device.registeredAt.toISOString(),
  revoked: device.revokedAt !== null,
});

const personView = (person: store.PersonFacts) => ({
  id: person.id,
  displayName: person.display_name,
  signInName: person.sign_in_name,
  roles: person.roles,
  active: person.active,
  hasPin: person.has_pin,
});
