import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { isTimeZone } from "#domain";
import { poolOf } from "../db/data-source.ts";
import { inCommand, inRead } from "../db/transaction.ts";
import { LocationRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { Problem } from "../http/problem.ts";
import { beginSession } from "../people/begin-session.ts";
import { findInstallation } from "../people/people.store.ts";
import { hashSecret, sameCode } from "../people/secrets.ts";
import { SecureSide } from "../tls/secure-side.ts";
import { trustPath } from "../tls/trust.ts";
import { version } from "../version.ts";
import { foundPractice } from "./found-practice.ts";
import { SetUpCode } from "./set-up-code.ts";

@Injectable()
export class PracticeService {
  constructor(
    @Inject(DataSource) private readonly db: DataSource,
    @Inject(SetUpCode) private readonly setUpCode: SetUpCode,
    @Inject(SecureSide) private readonly secure: SecureSide,
  ) {}

  async getHealth(call: Call<"getHealth">): Promise<Answer<"getHealth">> {
    const { rows } = await poolOf(this.db).query<{ server_version: string }>("show server_version");
    const database = `PostgreSQL ${rows[0]!.server_version}`;
    const { addresses: secureAddresses } = this.secure;
    return {
      status: "ok",
      version,
      database,
      at: call.at.toISOString(),
      secureAddresses,
      trustPath,
    };
  }

  async getSetUp(): Promise<Answer<"getSetUp">> {
    const { founded, demonstration } = await findInstallation(poolOf(this.db));
    return { needed: !founded, demonstration };
  }

  async setUp(call: Call<"setUp">): Promise<Answer<"setUp">> {
    const { code, password, alsoDentist, ...told } = call.body;
    const expected = this.setUpCode.code;
    const { founded } = await findInstallation(poolOf(this.db));
    if (expected === null || founded) throw alreadySetUp();
    if (!sameCode(expected, code)) {
      throw new Problem(
        "wrong-set-up-code",
        "The code does not match. It is printed where the server was started.",
      );
    }
    if (!isTimeZone(told.timeZone)) {
      throw new Problem(
        "invalid-request",
        `${told.timeZone} is no time zone. Write one as in Europe/Berlin or America/New_York.`,
        { errors: [{ path: "/body/timeZone", message: "not an IANA time zone" }] },
      );
    }
    const who = await foundPractice(this.db, call.at, {
      ...told,
      demonstration: false,
      passwordHash: await hashSecret(password),
      roles: alsoDentist ? ["dentist", "office", "owner"] : ["office", "owner"],
    });
    if (!who) throw alreadySetUp();
    return beginSession(this.db, call, who);
  }

  listLocations(call: Call<"listLocations">): Promise<Answer<"listLocations">> {
    return inRead(this.db, call, async (tx) => {
      const locations = await tx.manager.find(LocationRow, {
        where: { practiceId: tx.actor.practiceId },
        order: { outside: "ASC", name: "ASC" },
      });
      return {
        locations: locations.map(({ id, name, kind, outside }) => ({ id, name, kind, outside })),
      };
    });
  }

  addLocation(call: Call<"addLocation">): Promise<Answer<"addLocation">> {
    return inCommand(this.db, call, async (tx) => {
      const id = newId();
      const { practiceId } = tx.actor;
      await tx.manager.insert(LocationRow, { practiceId, id, ...call.body });
      tx.audit("location-added", `location:${id}`, call.body);
      return { id, ...call.body, outside: false };
    });
  }
}

const alreadySetUp = () =>
  new Problem("already-set-up", "This installation has its owner. Sign in instead.");
