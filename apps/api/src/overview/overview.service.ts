import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { addDays, civilDateAt, daysBetween, type CheckSettings } from "#domain";
import { inRead, type Tx } from "../db/transaction.ts";
import type { Answer, Call } from "../http/operation.ts";
import { listExcursions } from "../keeping/keeping.store.ts";
import { lightView } from "../lights/light-view.ts";
import { listLights } from "../lights/lights.store.ts";
import { containerView } from "../stock/container-row.ts";
import { listTraysOn, loadTrays } from "../trays/tray-facts.store.ts";
import { trayLine } from "../trays/tray-view.ts";
import { getCheckSettings } from "../practice/check-settings.store.ts";
import { countOverdue } from "../waiting/waiting.store.ts";
import * as store from "./overview.store.ts";

@Injectable()
export class OverviewService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  getToday(call: Call<"getToday">): Promise<Answer<"getToday">> {
    return inRead(this.db, call, async (tx) => {
      const on = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
      const trays = await loadTrays(tx, await listTraysOn(tx, on));
      const settings = await getCheckSettings(tx);
      const { shortDatedDays, waitingLimitDays } = settings;
      const ending = await store.listEnding(tx, on, shortDatedDays);
      const drafts = await store.listDrafts(tx);
      const withdrawals = await store.listOpenWithdrawals(tx);
      const overdue = await countOverdue(tx, addDays(on, -waitingLimitDays));
      return {
        on,
        at: tx.at.toISOString(),
        trays: trays.map((tray) => trayLine(tx, tray)),
        ending: ending.map(containerView),
        drafts: drafts.map((row) => ({
          recordId: row.id,
          trayId: row.tray_id,
          chartNumber: row.chart_number,
          tooth: row.tooth,
          startedAt: row.started_at.toISOString(),
        })),
        withdrawals: withdrawals.map((row) => ({
          id: row.id,
          reference: row.reference,
          receivedAt: row.received_at.toISOString(),
          here: row.here,
        })),
        waiting: {
          overdue: overdue.count,
          longestDays: overdue.oldest ? daysSince(tx, overdue.oldest) : 0,
          limitDays: waitingLimitDays,
        },
        lights: await listLightsToSee(tx, settings),
        excursions: await listUnsettled(tx),
        unconfirmed: await store.listUnconfirmed(tx),
      };
    });
  }
}

async function listLightsToSee(
  tx: Tx,
  settings: CheckSettings,
): Promise<Answer<"getToday">["lights"]> {
  const rows = await listLights(tx);
  return rows.flatMap((row) => {
    const { id, name, retired, state } = lightView(tx, row, settings);
    return retired || state === "good" ? [] : [{ id, name, state }];
  });
}

async function listUnsettled(tx: Tx): Promise<Answer<"getToday">["excursions"]> {
  const excursions = await listExcursions(tx);
  return excursions.flatMap(({ id, location, from, containers, resolved }) =>
    resolved === null ? [{ id, place: location.name, from, containers }] : [],
  );
}

function daysSince({ at, actor }: Tx, then: Date): number {
  const dayOf = (instant: Date) => civilDateAt(instant.toISOString(), actor.timeZone);
  return daysBetween(dayOf(then), dayOf(at));
}
