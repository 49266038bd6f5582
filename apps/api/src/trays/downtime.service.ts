import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt } from "#domain";
import { inRead } from "../db/transaction.ts";
import type { SentFile } from "../http/file.ts";
import type { Call } from "../http/operation.ts";
import { writeSheet } from "./downtime-sheet.ts";
import { listTraysOn, loadTrays } from "./tray-facts.store.ts";
import { assignVisitSteps, trayView } from "./tray-view.ts";

/** What is written on while the system is away; entered afterwards with both times. */
@Injectable()
export class DowntimeService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  async getDowntimeSheet(call: Call<"getDowntimeSheet">): Promise<SentFile> {
    const { language: own, timeZone } = call.actor;
    const { language = own, blanks } = call.query;
    const on = call.query.on ?? civilDateAt(call.at.toISOString(), timeZone);
    const trays = await inRead(this.db, call, async (tx) => {
      const loaded = await loadTrays(tx, await listTraysOn(tx, on));
      const open = loaded.filter(
        ({ head }) => head.records.length === 0 && head.state !== "cleared",
      );
      return open.map((tray) => ({
        view: trayView(tx, tray),
        steps: assignVisitSteps(tray.facts).steps.map(({ step }) => step),
      }));
    });
    const bytes = await writeSheet({ trays, on, blanks, language, timeZone, at: call.at });
    return { media: "application/pdf", name: `downtime-${on}.pdf`, bytes };
  }
}
