import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { DeviceView, ScannerOfDevice } from "#contracts/people";
import { inCommand, inRead } from "../db/transaction.ts";
import { DeviceRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import {
  deviceToken,
  readDeviceCookie,
  readSessionCookie,
  tokenHash,
  writeDeviceCookie,
} from "../http/cookies.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
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
        scannerProfile: null,
        scannerSetUpAt: null,
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

  getScannerProfile(call: Call<"getScannerProfile">): Promise<ScannerOfDevice> {
    const token = deviceTokenOf(call);
    return inRead(this.db, call, async (tx) =>
      scannerView(token && (await store.findScanner(tx, token))),
    );
  }

  /** A profile decides how a lot is read, so the audit trail has it. */
  saveScannerProfile(call: Call<"saveScannerProfile">): Promise<ScannerOfDevice> {
    const token = deviceTokenOf(call);
    return inCommand(this.db, call, async (tx) => {
      const row = token && (await store.updateScanner(tx, token, call.body));
      if (!row) {
        throw new Problem(
          "not-found",
          "This device is not registered as a tablet, so its scanner is remembered only on itself.",
        );
      }
      tx.audit("scanner-set-up", `device:${row.id}`, call.body);
      return scannerView(row);
    });
  }
}

/** The token of the tablet that this request comes from, if it is one of this practice's. */
function deviceTokenOf(call: Call<"getScannerProfile" | "saveScannerProfile">): Buffer | undefined {
  const cookie = readDeviceCookie(call.request);
  return cookie?.practiceId === call.actor.practiceId ? tokenHash(cookie.token) : undefined;
}

const scannerView = (row: store.ScannerRow | undefined): ScannerOfDevice => ({
  device: row === undefined ? null : { id: row.id, name: row.name },
  profile: row?.scanner_profile ?? null,
  setUpAt: row?.scanner_set_up_at?.toISOString() ?? null,
});

const deviceView = (device: DeviceRow): DeviceView => ({
  id: device.id,
  name: device.name,
  registeredAt: device.registeredAt.toISOString(),
  revoked: device.revokedAt !== null,
  scannerSetUpAt: device.scannerSetUpAt?.toISOString() ?? null,
});

const personView = (person: store.PersonFacts) => ({
  id: person.id,
  displayName: person.display_name,
  signInName: person.sign_in_name,
  roles: person.roles,
  active: person.active,
  hasPin: person.has_pin,
});
