/** The server's own verification, asked of a practice of the scene. */
import type { DataSource } from "typeorm";
import type { Verification } from "#contracts/overview";
import { AuditService } from "../../apps/api/src/audit/audit.service.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { actorOf } from "../../apps/api/src/people/begin-session.ts";
import type { ScenePractice } from "./acts.ts";
import type { Scene } from "./scene.ts";

export interface Verifier {
  verify(practice: ScenePractice): Promise<Verification>;
  close(): Promise<void>;
}

export async function openVerifier(scene: Scene): Promise<Verifier> {
  const db: DataSource = await connect(scene.database.appUrl, 2);
  const audit = new AuditService(db);
  return {
    verify: ({ id, organisation, dentist }) => {
      const who = { practiceId: id, organisationId: organisation, personId: dentist };
      return audit.verify({ actor: actorOf({ ...who, deviceId: null }), at: new Date() });
    },
    close: () => db.destroy(),
  };
}
