import type { Role } from "#domain";

/** Who acts: one person of one practice, in one session. */
export interface Actor {
  practiceId: string;
  organisationId: string;
  personId: string;
  deviceId: string | null;
  sessionId: string;
  roles: readonly Role[];
  timeZone: string;
  language: "en" | "de";
}
