import {
  Inject,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
  type OnModuleDestroy,
} from "@nestjs/common";
import type { Readable } from "node:stream";
import { DataSource } from "typeorm";
import { civilDateAt } from "#domain";
import { listenToCommits, type Committed } from "../db/commits.ts";
import { poolOf } from "../db/data-source.ts";
import { inRead } from "../db/transaction.ts";
import type { Actor } from "../http/actor.ts";
import { Clock } from "../http/clock.ts";
import type { Answer, Call } from "../http/operation.ts";
import { LiveStreams, sayEvent } from "./live-streams.ts";
import * as store from "./live.store.ts";
import { practicesText, type PracticeRow } from "./recheck.store.ts";
import { recheckTrays, type Recheck } from "./recheck.ts";
import { nobody } from "../people/begin-session.ts";

/** What makes every open tray worth another look. */
const shaking = new Set([
  "withdrawal-opened",
  "withdrawal-closed",
  "excursion-opened",
  "excursion-resolved",
  "product-changed",
  "product-confirmed",
  "checks-changed",
  "allergies-changed",
  "light-read",
  "light-changed",
]);
const minuteMs = 60_000;
const quietMs = 250;

/** Tells open pages what changed, and checks the open trays again when something shook them. */
@Injectable()
export class LiveService implements OnApplicationBootstrap, OnModuleDestroy {
  private readonly log = new Logger("live");
  private readonly streams = new LiveStreams();
  /** The day on which each practice's trays were last checked as a whole. */
  private readonly days = new Map<string, string>();
  private working: Promise<unknown> = Promise.resolve();
  private stopListening = () => {};
  private timer: NodeJS.Timeout | undefined;
  /** Trays that somebody works on, with who; looked at again once that rests. */
  private readonly touched = new Map<string, Actor>();
  private quiet: NodeJS.Timeout | undefined;

  constructor(
    @Inject(DataSource) private readonly db: DataSource,
    @Inject(Clock) private readonly clock: Clock,
  ) {}

  onApplicationBootstrap(): void {
    this.stopListening = listenToCommits(this.db, (committed) => this.hear(committed));
    this.timer = setInterval(() => void this.beginDays(), minuteMs).unref();
  }

  async onModuleDestroy(): Promise<void> {
    this.stopListening();
    clearInterval(this.timer);
    clearTimeout(this.quiet);
    this.streams.close();
    await this.working;
  }

  /** When all that was heard so far has been followed up. */
  async settled(): Promise<void> {
    this.followTouched();
    await this.working;
  }

  async listen(call: Call<"listen">): Promise<Readable | string> {
    call.reply.header("Content-Type", "text/event-stream; charset=utf-8");
    call.reply.header("X-Accel-Buffering", "no");
    const { practiceId } = call.actor;
    return call.query.once === undefined ? this.streams.add(practiceId) : sayEvent("ready", {});
  }

  listVerdictChanges(call: Call<"listVerdictChanges">): Promise<Answer<"listVerdictChanges">> {
    return inRead(this.db, call, async (tx) => ({
      changes: (await store.listChanges(tx)).map((row) => ({
        id: row.id,
        trayId: row.tray_id,
        chartNumber: row.chart_number,
        teeth: row.teeth,
        appointmentAt: row.appointment_at.toISOString(),
        before: row.before,
        after: row.after,
        codes: row.codes,
        cause: row.cause,
        at: row.at.toISOString(),
      })),
    }));
  }

  getCheckStatistics(call: Call<"getCheckStatistics">): Promise<Answer<"getCheckStatistics">> {
    return inRead(this.db, call, async (tx) => ({
      lines: await store.listStatistics(tx, call.query.months),
    }));
  }

  /** Where a new day has begun in a practice since its trays were last checked: checks them. */
  async beginDays(): Promise<void> {
    const at = this.clock.now();
    const { rows } = await poolOf(this.db).query<PracticeRow>(practicesText);
    for (const row of rows) {
      const day = civilDateAt(at.toISOString(), row.time_zone);
      const known = this.days.get(row.practice_id);
      this.days.set(row.practice_id, day);
      if (known === day) continue;
      const actor = ownActor({
        practiceId: row.practice_id,
        organisationId: row.organisation_id,
        timeZone: row.time_zone,
        language: row.language,
      });
      this.follow({ actor, at, trayIds: null, cause: "day-begun" });
    }
    await this.settled();
  }

  private hear({ actor, at, changes }: Committed): void {
    const { practiceId } = actor;
    const actions = changes.map(({ action }) => action);
    this.streams.tell(practiceId, "changed", { actions: [...new Set(actions)] });
    const cause = actions.find((action) => shaking.has(action));
    const trayIds = changes.flatMap(({ subject }) => /^tray:(.+)$/.exec(subject)?.[1] ?? []);
    if (cause !== undefined) {
      this.followTouched();
      this.follow({ actor: ownActor(actor), at, trayIds: null, cause });
    }
    for (const trayId of trayIds) this.touched.set(trayId, ownActor(actor));
    clearTimeout(this.quiet);
    this.quiet = setTimeout(() => this.followTouched(), quietMs).unref();
  }

  private followTouched(): void {
    const touched = [...this.touched];
    this.touched.clear();
    const at = this.clock.now();
    for (const [trayId, actor] of touched) {
      this.follow({ actor, at, trayIds: [trayId], cause: null });
    }
  }

  /** One after the other, behind the answer that nobody is kept waiting for. */
  private follow(told: Recheck): void {
    this.working = this.working.then(async () => {
      try {
        const changes = await recheckTrays(this.db, told);
        if (changes.length === 0) return;
        const trays = changes.map(({ trayId, before, verdict }) => ({
          trayId,
          before,
          after: verdict,
        }));
        this.streams.tell(told.actor.practiceId, "verdicts", { cause: told.cause, trays });
      } catch (error) {
        this.log.error(`trays could not be checked again: ${String(error)}`);
      }
    });
  }
}

type Practice = Pick<Actor, "practiceId" | "organisationId" | "timeZone" | "language">;

/** The server itself at work in a practice: in nobody's name. */
function ownActor({ practiceId, organisationId, timeZone, language }: Practice): Actor {
  const ids = { practiceId, organisationId, deviceId: null };
  return { ...ids, personId: nobody, sessionId: nobody, roles: [], timeZone, language };
}
