import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { addDays, civilDateAt } from "#domain";
import type { WaitingSeal } from "#contracts/waiting";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { getCheckSettings } from "../practice/check-settings.store.ts";
import { loadTray } from "../trays/tray-facts.store.ts";
import { toothSealView, waitingView } from "./seal-view.ts";
import * as store from "./waiting.store.ts";

@Injectable()
export class WaitingService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listWaiting(call: Call<"listWaiting">): Promise<Answer<"listWaiting">> {
    return inRead(this.db, call, async (tx) => {
      const days = await getDays(tx);
      const overdueBefore = addDays(days.on, -days.limitDays);
      const rows = await store.listWaiting(tx, call.query, overdueBefore);
      const page = rows.slice(0, call.query.limit);
      return {
        ...days,
        seals: page.map((row) => waitingView(tx, row, days)),
        next: rows.length > page.length ? page.at(-1)!.id : null,
      };
    });
  }

  /** Off the list with a reason, or back onto it; every entry stays. */
  changeWaiting(call: Call<"changeWaiting">): Promise<WaitingSeal> {
    const { body } = call;
    if (!body.waits && body.reason === "other" && body.note.length < 3) {
      throw new Problem("invalid-request", "Say in the note why the tooth no longer waits.", {
        errors: [{ path: "/body/note", message: "needed where it is none of those named" }],
      });
    }
    return inCommand(this.db, call, async (tx) => {
      const seal = await store.findSeal(tx, call.params.sealId);
      if (!seal) throw notFound("signed sealing record");
      refuseUnchanged(seal, body.waits);
      await store.insertWaitingChange(tx, seal, body);
      const action = body.waits ? "waiting-resumed" : "waiting-ended";
      tx.audit(action, `record:${seal.id}`, body);
      return waitingView(tx, (await store.findSeal(tx, seal.id))!, await getDays(tx));
    });
  }

  getTraySeals(call: Call<"getTraySeals">): Promise<Answer<"getTraySeals">> {
    const { trayId } = call.params;
    return inRead(this.db, call, async (tx) => {
      const tray = await loadTray(tx, trayId);
      if (!tray) throw notFound("tray");
      const { visit, teeth, appointment_at: at } = tray.head;
      if (visit !== "bonding") return { teeth: [] };
      const on = civilDateAt(new Date(at).toISOString(), tx.actor.timeZone);
      const rows = await store.listSealsForTray(tx, trayId);
      return {
        teeth: teeth.map(({ tooth }) => {
          const ofTooth = rows.filter((row) => row.tooth === tooth);
          const linked = ofTooth.find((row) => row.linked)?.id ?? null;
          return { tooth, linked, seals: ofTooth.map((row) => toothSealView(tx, row, on)) };
        }),
      };
    });
  }
}

async function getDays(tx: Tx): Promise<{ on: string; limitDays: number }> {
  const on = civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
  return { on, limitDays: (await getCheckSettings(tx)).waitingLimitDays };
}

function refuseUnchanged(seal: store.WaitingRow, waits: boolean): void {
  if (seal.bonded) {
    const detail = "The restoration is bonded already, so nothing waits. Open the record instead.";
    throw new Problem("waiting-unchanged", detail);
  }
  if (waits !== (seal.off === null)) return;
  const detail = waits
    ? "The tooth is on the list already. Reload the list."
    : "Somebody took the tooth off the list before. Reload the list.";
  throw new Problem("waiting-unchanged", detail);
}
