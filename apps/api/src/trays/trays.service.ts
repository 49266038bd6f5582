import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { checkTray, civilDateAt, contents } from "#domain";
import type { TrayView } from "#contracts/trays";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import { newId } from "../db/uuid.ts";
import type { Answer, Call } from "../http/operation.ts";
import { notFound, Problem } from "../http/problem.ts";
import { insertMovement } from "../stock/movements.store.ts";
import { planVisit, readVisit, refuseUnknown } from "./plan-visit.ts";
import { nameScan, placeScan } from "./place-scan.ts";
import * as facts from "./tray-facts.store.ts";
import {
  assignVisitSteps,
  checkNow,
  itemView,
  subjectOf,
  trayLine,
  trayView,
} from "./tray-view.ts";
import { returnParts, returnView } from "./return-parts.ts";
import * as store from "./trays.store.ts";

@Injectable()
export class TraysService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listTrays(call: Call<"listTrays">): Promise<Answer<"listTrays">> {
    return inRead(this.db, call, async (tx) => {
      const on = call.query.on ?? civilDateAt(tx.at.toISOString(), tx.actor.timeZone);
      const trays = await facts.loadTrays(tx, await facts.listTraysOn(tx, on));
      return { trays: trays.map((tray) => trayLine(tx, tray)) };
    });
  }

  planTray(call: Call<"planTray">): Promise<TrayView> {
    const { chartNumber, ...plan } = call.body;
    const visit = readVisit(plan);
    return inCommand(this.db, call, async (tx) =>
      getTray(tx, await planVisit(tx, { ...visit, chartNumber })),
    );
  }

  /** Another time, room, technique or teeth; what stands on the tray goes along to the room. */
  changeTray(call: Call<"changeTray">): Promise<TrayView> {
    const id = call.params.trayId;
    const visit = readVisit(call.body);
    return inCommand(this.db, call, async (tx) => {
      await getOpenTray(tx, id);
      const { head, rows } = (await facts.loadTray(tx, id))!;
      await refuseUnknown(tx, visit, head.technique_id);
      await store.updateVisit(tx, { ...visit, id });
      if (visit.locationId !== head.location_id) {
        const standing = rows.filter((row) => row.location_id === head.location_id);
        for (const row of standing) await moveAlong(tx, row, visit.locationId);
      }
      tx.audit("visit-changed", `tray:${id}`, visit);
      return getTray(tx, id);
    });
  }

  getTray(call: Call<"getTray">): Promise<TrayView> {
    return inRead(this.db, call, (tx) => getTray(tx, call.params.trayId));
  }

  scanIntoTray(call: Call<"scanIntoTray">): Promise<Answer<"scanIntoTray">> {
    const id = call.params.trayId;
    const { stepKey = null, scannedAt, ...sent } = call.body;
    return inCommand(this.db, call, async (tx) => {
      const [tray, named] = await Promise.all([getOpenTray(tx, id), nameScan(tx, sent, id)]);
      const itemId = newId();
      const place = { id, locationId: tray.location_id };
      // One connection does what it is sent in the order it is sent: the facts come last.
      const [, , loaded] = await Promise.all([
        placeScan(tx, place, { itemId, named, sent, stepKey, scannedAt }),
        tray.state === "planned" ? store.updateTrayState(tx, id, "setting") : undefined,
        facts.loadTray(tx, id),
      ]);
      const row = loaded!.rows.find((each) => each.item_id === itemId)!;
      const assignment = assignVisitSteps(loaded!.facts);
      return { item: itemView(row, assignment), check: checkNow(tx, loaded!) };
    });
  }

  removeFromTray(call: Call<"removeFromTray">): Promise<TrayView> {
    const { trayId, itemId } = call.params;
    return inCommand(this.db, call, async (tx) => {
      await getOpenTray(tx, trayId);
      if (!(await store.removeTrayItem(tx, trayId, itemId))) throw notFound("item on this tray");
      tx.audit("removed-from-tray", `tray:${trayId}`, { item: itemId });
      return getTray(tx, trayId);
    });
  }

  /** Ends a tray: what ran empty is booked as used up, the rest is free for the next one. */
  clearTray(call: Call<"clearTray">): Promise<TrayView> {
    const id = call.params.trayId;
    return inCommand(this.db, call, async (tx) => {
      const { state } = await getLockedTray(tx, id);
      if (state === "cleared") throw cleared();
      const { head, rows } = (await facts.loadTray(tx, id))!;
      const draft = head.records.find((record) => record.state === "draft");
      if (draft) {
        throw new Problem(
          "record-not-complete",
          `The record of tooth ${draft.tooth} is not signed yet. Sign it, then clear the tray.`,
          { recordId: draft.id },
        );
      }
      await returnParts(tx, rows, call.body);
      await store.updateTrayState(tx, id, "cleared");
      tx.audit("tray-cleared", `tray:${id}`, call.body);
      return getTray(tx, id);
    });
  }

  getTrayReturns(call: Call<"getTrayReturns">): Promise<Answer<"getTrayReturns">> {
    return inRead(this.db, call, async (tx) => {
      await getTray(tx, call.params.trayId);
      const rows = await store.listReturns(tx, call.params.trayId);
      return { containers: rows.map(returnView) };
    });
  }

  overrideFinding(call: Call<"overrideFinding">): Promise<TrayView> {
    const { trayId } = call.params;
    const { code, subject, reason } = call.body;
    return inCommand(this.db, call, async (tx) => {
      const { state } = await getLockedTray(tx, trayId);
      if (state === "cleared") throw cleared();
      const loaded = (await facts.loadTray(tx, trayId))!;
      const { findings } = checkTray(loaded.facts, tx.at.toISOString());
      const finding = findings.find((each) => each.code === code && subjectOf(each) === subject);
      if (finding?.level !== "stop") {
        throw new Problem(
          "not-overridable",
          "The check has no such stop now. Reload the tray and look again.",
        );
      }
      await store.insertOverride(tx, { id: newId(), trayId, subject, finding, reason });
      tx.audit("stop-passed", `tray:${trayId}`, { code, subject, reason });
      return getTray(tx, trayId);
    });
  }

  changeAllergies(call: Call<"changeAllergies">): Promise<Answer<"changeAllergies">> {
    const id = call.params.patientId;
    const allergies = contents.filter((one) => call.body.allergies.includes(one));
    return inCommand(this.db, call, async (tx) => {
      const patient = await store.updateAllergies(tx, id, allergies);
      if (!patient) throw notFound("patient");
      const { chart_number: chartNumber, before } = patient;
      tx.audit("allergies-changed", `patient:${id}`, { before, after: allergies });
      return { id, chartNumber, allergies };
    });
  }
}

async function moveAlong(tx: Tx, row: facts.ItemRow, toLocationId: string): Promise<void> {
  if (row.id === null) return;
  await insertMovement(tx, {
    id: newId(),
    lotId: row.lot_id,
    containerId: row.id,
    fromLocationId: row.location_id,
    toLocationId,
    quantity: 1,
    reason: "tray",
  });
}

async function getTray(tx: Tx, id: string): Promise<TrayView> {
  const loaded = await facts.loadTray(tx, id);
  if (!loaded) throw notFound("tray");
  return trayView(tx, loaded);
}

async function getLockedTray(tx: Tx, id: string): Promise<facts.TrayLock> {
  const tray = await facts.lockTray(tx, id);
  if (!tray) throw notFound("tray");
  return tray;
}

/** Before priming anything may change; once the record runs, a bottle is changed by a swap. */
async function getOpenTray(tx: Tx, id: string): Promise<facts.TrayLock> {
  const tray = await getLockedTray(tx, id);
  if (tray.state === "cleared") throw cleared();
  if (tray.state !== "in-use") return tray;
  throw new Problem(
    "tray-not-open",
    "Priming has started, so the tray is fixed. Use 'swap' at the step to change a container.",
  );
}

const cleared = () =>
  new Problem("tray-not-open", "This tray is cleared. Plan a new one for the next visit.");
