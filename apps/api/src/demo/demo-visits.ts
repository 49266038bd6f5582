import { toothModes } from "#domain";
import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { RecordsService } from "../records/records.service.ts";
import { TraysService } from "../trays/trays.service.ts";
import { callAs, momentOf, type DemoScene } from "./demo-scene.ts";
import { containerOf } from "./demo-stock.ts";

interface Visit {
  hour: number;
  chart: string;
  tooth: string;
  technique: string;
  mode?: string;
  containers: (string | number)[][];
}

const usualTooth = {
  provisional: "resin",
  undercut: false,
  surfaces: "",
  restoration: null,
} as const;

const nothingSpecial = { usedUp: [], returned: [], discarded: [] };
const modeOf = ({ mode }: Visit) => toothModes.find((one) => one === mode) ?? null;

/** Plans a tray at the moment of a visit and scans its containers into it. */
async function setTray(scene: DemoScene, visit: Visit, days: number): Promise<string> {
  const trays = scene.app.get(TraysService);
  const appointment = momentOf(scene, days, visit.hour);
  const at = days === 0 ? scene.now : appointment;
  const who = { signInName: "assistant", at };
  const tray = await trays.planTray(
    callAs<"planTray">(scene, who, {
      body: {
        chartNumber: visit.chart,
        teeth: [{ ...usualTooth, tooth: visit.tooth, mode: modeOf(visit) }],
        bondingOn: null,
        templateId: null,
        techniqueId: scene.techniques.get(visit.technique)!,
        locationId: scene.places.get("operatory")!,
        appointmentAt: appointment.toISOString(),
      },
    }),
  );
  for (const [lot, nth] of visit.containers) {
    const { code } = containerOf(scene, String(lot), Number(nth));
    const given = { params: { trayId: tray.id }, body: { barcodes: [code] } };
    await trays.scanIntoTray(callAs<"scanIntoTray">(scene, who, given));
  }
  return tray.id;
}

/** Visits that are over: primed, worked step by step, signed, cleared. */
export async function playPastVisits(scene: DemoScene): Promise<void> {
  const records = scene.app.get(RecordsService);
  const trays = scene.app.get(TraysService);
  const { password } = demo.people.find(({ signInName }) => signInName === "dentist")!;
  for (const visit of demo.records) {
    const trayId = await setTray(scene, visit, visit.days);
    const start = momentOf(scene, visit.days, visit.hour).getTime();
    const who = (minutes: number) => ({
      signInName: "dentist",
      at: new Date(start + minutes * 60_000),
    });
    const started = await records.startRecord(
      callAs<"startRecord">(scene, who(0), { params: { trayId }, body: { seals: [] } }),
    );
    const record = started.records[0]!;
    const params = { recordId: record.id };
    for (const [index, { key: stepKey }] of record.steps.entries()) {
      const startedAt = who(1 + index * 2);
      const body = { kind: "step-started", stepKey } as const;
      await records.addRecordEvent(callAs<"addRecordEvent">(scene, startedAt, { params, body }));
      const done = { kind: "step-done", stepKey } as const;
      const doneAt = who(2 + index * 2);
      await records.addRecordEvent(callAs<"addRecordEvent">(scene, doneAt, { params, body: done }));
    }
    const signing = { params, body: { password } };
    await records.signRecord(callAs<"signRecord">(scene, who(30), signing));
    const [lot, nth] = (visit as { usedUp?: (string | number)[] }).usedUp ?? [];
    const usedUp = lot === undefined ? [] : [containerOf(scene, String(lot), Number(nth)).id];
    const clearing = { params: { trayId }, body: { usedUp, returned: [], discarded: [] } };
    await trays.clearTray(callAs<"clearTray">(scene, who(40), clearing));
  }
}

export async function setTodaysTrays(scene: DemoScene): Promise<void> {
  for (const visit of demo.today) await setTray(scene, visit, 0);
}

/** Clears trays of another day; nothing of them ran empty. */
export async function putAway(scene: DemoScene, trayIds: readonly string[]): Promise<void> {
  const trays = scene.app.get(TraysService);
  const who = { signInName: "assistant", at: scene.now };
  for (const trayId of trayIds) {
    await trays.clearTray(
      callAs<"clearTray">(scene, who, { params: { trayId }, body: nothingSpecial }),
    );
  }
}
