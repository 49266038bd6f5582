import { Inject, Injectable, type CanActivate, type ExecutionContext } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { FastifyRequest } from "fastify";
import type { Role } from "#domain";
import { routes } from "#contracts/routes";
import { poolOf } from "../db/data-source.ts";
import type { Actor } from "./actor.ts";
import { Clock } from "./clock.ts";
import { readSessionCookie, tokenHash } from "./cookies.ts";
import { operationOf, stateOf } from "./operation.ts";
import { Problem } from "./problem.ts";

interface SessionRow {
  session_id: string;
  organisation_id: string;
  person_id: string;
  device_id: string | null;
  roles: Role[];
  last_seen_at: Date;
  expires_at: Date;
  time_zone: string;
  language: "en" | "de";
}

const findSession = {
  name: "find-session",
  text: "select * from find_session($1, $2)",
};
const noteSeen = { name: "note-seen", text: "select note_session_seen($1, $2, $3)" };

const idleLimitMs = 12 * 3_600_000;
const noteEveryMs = 300_000;

/** Lets a request pass when its session may do what its operation is. */
@Injectable()
export class ActorGuard implements CanActivate {
  constructor(
    @Inject(DataSource) private readonly db: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<FastifyRequest>();
    const state = { at: this.clock.now() };
    (request as unknown as { tubule: unknown }).tubule = state;
    const name = operationOf(context);
    if (!name) return true;
    const { roles, method }: { roles: unknown; method: string } = routes[name];
    if (method !== "GET") refuseForeignOrigin(request);
    if (roles === "anyone") return true;
    const actor = await this.findActor(request, state.at);
    if (!actor) {
      throw new Problem("not-signed-in", "Nobody is signed in, or the session has ended. Sign in.");
    }
    if (Array.isArray(roles) && !roles.some((role) => actor.roles.includes(role as Role))) {
      throw new Problem(
        "not-allowed",
        `This needs the role ${(roles as Role[]).join(" or ")}. Ask somebody who has it.`,
        { roles },
      );
    }
    stateOf(request).actor = actor;
    return true;
  }

  private async findActor(request: FastifyRequest, at: Date): Promise<Actor | undefined> {
    const cookie = readSessionCookie(request);
    if (!cookie) return undefined;
    const pool = poolOf(this.db);
    const { practiceId } = cookie;
    const { rows } = await pool.query<SessionRow>({
      ...findSession,
      values: [practiceId, tokenHash(cookie.token)],
    });
    const row = rows[0];
    if (!row || row.expires_at <= at) return undefined;
    const idleMs = at.getTime() - row.last_seen_at.getTime();
    if (idleMs > idleLimitMs) return undefined;
    if (idleMs > noteEveryMs) {
      await pool.query({ ...noteSeen, values: [practiceId, row.session_id, at] });
    }
    return {
      practiceId,
      organisationId: row.organisation_id,
      personId: row.person_id,
      deviceId: row.device_id,
      sessionId: row.session_id,
      roles: row.roles,
      timeZone: row.time_zone,
      language: row.language,
    };
  }
}

/** A browser names the page that sends a write; only our own may. A program sends no Origin. */
function refuseForeignOrigin(request: FastifyRequest): void {
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  const own = origin === undefined || (URL.canParse(origin) && new URL(origin).host === host);
  const sameSite = site === undefined || site === "same-origin" || site === "none";
  if (own && sameSite) return;
  throw new Problem("foreign-origin", "Open Tubule at its own address; other pages may not write.");
}
