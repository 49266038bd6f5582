import { Inject, Injectable } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { PlanTray } from "#contracts/trays";
import { inCommand, inRead, type Tx } from "../db/transaction.ts";
import type { Answer, Call } from "../http/operation.ts";
import { Problem } from "../http/problem.ts";
import { planVisit, readVisit } from "./plan-visit.ts";
import { readAppointmentList } from "./read-appointments.ts";
import { findVisit, listVisits, lockPlanning } from "./trays.store.ts";

type Result = Answer<"planTrays">["results"][number];

/** Appointment lists: read first, planned when a person has looked at them. */
@Injectable()
export class AppointmentsService {
  constructor(@Inject(DataSource) private readonly db: DataSource) {}

  listVisits(call: Call<"listVisits">): Promise<Answer<"listVisits">> {
    return inRead(this.db, call, async (tx) => ({
      visits: (await listVisits(tx, call.query)).map((row) => ({
        trayId: row.id,
        chartNumber: row.chart_number,
        appointmentAt: row.appointment_at.toISOString(),
      })),
    }));
  }

  readAppointments(call: Call<"readAppointments">): Promise<Answer<"readAppointments">> {
    return readAppointmentList(call.body.text, call.actor.timeZone);
  }

  planTrays(call: Call<"planTrays">): Promise<Answer<"planTrays">> {
    return inCommand(this.db, call, async (tx) => {
      await lockPlanning(tx);
      const results: Result[] = [];
      for (const visit of call.body.visits) results.push(await planOne(tx, visit));
      return { results };
    });
  }
}

/** One line by itself: what is wrong with it is found before anything is written. */
async function planOne(tx: Tx, { chartNumber, ...plan }: PlanTray): Promise<Result> {
  const before = await findVisit(tx, chartNumber, plan.appointmentAt);
  if (before) return { trayId: before, outcome: "already-planned", detail: "" };
  try {
    const trayId = await planVisit(tx, { ...readVisit(plan), chartNumber });
    return { trayId, outcome: "planned", detail: "" };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { trayId: null, outcome: "refused", detail: error.message };
  }
}
