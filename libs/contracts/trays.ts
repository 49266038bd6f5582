/** Trays: planned, set by scans, checked. */
import { z } from "zod";
import {
  contents,
  provisionalKinds,
  recordStates,
  restorationKinds,
  toothModes,
  trayStates,
} from "#domain";
import { Barcodes, CivilDate, GsTokens, Id, Instant } from "./common.ts";
import { TechniqueView } from "./catalogue.ts";
import { CheckView } from "./findings.ts";
import { ContainerView, Reading } from "./stock.ts";

/** ISO 3950: permanent 11 to 48 or primary 51 to 85; with an S a supernumerary beside it. */
export const Tooth = z
  .string()
  .regex(/^([1-4][1-8]|[5-8][1-5])S?$/, "a tooth as in ISO 3950, such as 16");
export const ChartNumber = z.string().trim().min(1).max(40);

export const VisitTooth = z
  .strictObject({
    tooth: Tooth,
    mode: z
      .enum(toothModes)
      .nullable()
      .default(null)
      .meta({ description: "Where the technique has steps for some modes alone" }),
    provisional: z.enum(provisionalKinds).default("none"),
    undercut: z.boolean().default(false),
    surfaces: z.string().max(5).default("").meta({ description: "In any order, such as DOM" }),
    restoration: z.enum(restorationKinds).nullable().default(null),
  })
  .meta({ id: "VisitTooth" });
export type VisitTooth = z.infer<typeof VisitTooth>;
export const VisitTeeth = z
  .array(VisitTooth)
  .min(1)
  .max(16)
  .refine((teeth) => new Set(teeth.map(({ tooth }) => tooth)).size === teeth.length, {
    message: "each tooth once",
  });

const visit = {
  teeth: VisitTeeth,
  techniqueId: Id,
  locationId: Id,
  appointmentAt: Instant,
  bondingOn: CivilDate.nullable().default(null).meta({ description: "The planned bonding visit" }),
};
export const PlanTray = z
  .strictObject({
    chartNumber: ChartNumber,
    ...visit,
    templateId: Id.nullable()
      .default(null)
      .meta({ description: "Whose products are suggested before others" }),
  })
  .meta({ id: "PlanTray" });
export type PlanTray = z.infer<typeof PlanTray>;
export const ChangeTray = z
  .strictObject(visit)
  .meta({ id: "ChangeTray", description: "The patient stays: plan another tray for another one" });
export type ChangeTray = z.infer<typeof ChangeTray>;

const listText = z.string().max(200);
const skipReasons = ["repeats", "whole-day", "cancelled", "no-time", "unknown-zone"] as const;
export const ReadAppointments = z
  .strictObject({
    text: z.string().min(1).max(500_000).meta({ description: "Typed lines, CSV, or iCalendar" }),
  })
  .meta({ id: "ReadAppointments" });
export type ReadAppointments = z.infer<typeof ReadAppointments>;
export const AppointmentRows = z
  .object({
    form: z.enum(["lines", "icalendar"]),
    rows: z.array(
      z.object({
        chart: listText,
        teeth: listText,
        technique: listText,
        room: listText,
        day: listText,
        time: listText,
        at: Instant.nullable().meta({
          description: "Where the list says the instant; day and time are then by the clock here",
        }),
      }),
    ),
    skipped: z
      .array(z.object({ text: z.string(), why: z.enum(skipReasons) }))
      .meta({ description: "Events that are no single visit at a time" }),
  })
  .meta({ id: "AppointmentRows", description: "As written; nothing is planned yet" });
export type AppointmentRows = z.infer<typeof AppointmentRows>;

export const VisitQuery = z
  .strictObject({ from: CivilDate, to: CivilDate })
  .meta({ description: "Days in the practice's zone, both included" });
export type VisitQuery = z.infer<typeof VisitQuery>;
export const Visits = z
  .object({
    visits: z.array(z.object({ trayId: Id, chartNumber: z.string(), appointmentAt: Instant })),
  })
  .meta({ id: "Visits", description: "The first 2000, in the order of their times" });
export type Visits = z.infer<typeof Visits>;

export const PlanTrays = z
  .strictObject({ visits: z.array(PlanTray).min(1).max(200) })
  .meta({ id: "PlanTrays" });
export type PlanTrays = z.infer<typeof PlanTrays>;
export const PlannedTrays = z
  .object({
    results: z.array(
      z.object({
        trayId: Id.nullable(),
        outcome: z.enum(["planned", "already-planned", "refused"]),
        detail: z.string().meta({ description: "Why it was refused" }),
      }),
    ),
  })
  .meta({ id: "PlannedTrays", description: "In the order of the visits" });
export type PlannedTrays = z.infer<typeof PlannedTrays>;

export const ScanIntoTray = z
  .strictObject({
    barcodes: Barcodes,
    gsTokens: GsTokens.optional(),
    stepKey: z
      .string()
      .max(60)
      .optional()
      .meta({ description: "Where its kind should not decide" }),
    scannedAt: Instant.optional().meta({ description: "The tablet's time, where sent later" }),
  })
  .meta({ id: "ScanIntoTray" });
export type ScanIntoTray = z.infer<typeof ScanIntoTray>;

export const TrayItemView = z
  .object({
    id: Id,
    barcode: z.string(),
    reading: Reading,
    stepKeys: z.array(z.string()),
    productName: z.string().nullable(),
    container: ContainerView.nullable(),
    placedAt: Instant,
    placedBy: z.string(),
    scannedAt: Instant.nullable().meta({ description: "The tablet's time, where sent later" }),
  })
  .meta({ id: "TrayItem" });
export type TrayItemView = z.infer<typeof TrayItemView>;

export const Suggestion = z.object({
  containerId: Id,
  code: z.string(),
  productName: z.string(),
  lot: z.string(),
  endsOn: CivilDate.nullable(),
  open: z.boolean(),
  place: z.string(),
});

const Allergies = z
  .array(z.enum(contents))
  .max(contents.length)
  .meta({ description: "Contents of products that the patient reacts to" });
export const ChangeAllergies = z
  .strictObject({ allergies: Allergies })
  .meta({ id: "ChangeAllergies" });
export type ChangeAllergies = z.infer<typeof ChangeAllergies>;
export const PatientView = z
  .object({ id: Id, chartNumber: z.string(), allergies: Allergies })
  .meta({ id: "Patient" });
export type PatientView = z.infer<typeof PatientView>;

const RecordsOfTray = z
  .array(z.object({ id: Id, tooth: z.string(), state: z.enum(recordStates) }))
  .meta({ description: "One a tooth, once priming has started" });

export const TrayView = z
  .object({
    id: Id,
    chartNumber: z.string(),
    patient: z.object({ id: Id, allergies: Allergies }),
    teeth: z.array(VisitTooth),
    technique: TechniqueView,
    location: z.object({ id: Id, name: z.string() }),
    appointmentAt: Instant,
    bondingOn: CivilDate.nullable(),
    state: z.enum(trayStates),
    records: RecordsOfTray,
    items: z.array(TrayItemView),
    suggestions: z
      .record(z.string(), z.array(Suggestion))
      .meta({ description: "By step key: what to fetch, best first" }),
    check: CheckView,
  })
  .meta({ id: "Tray" });
export type TrayView = z.infer<typeof TrayView>;

export const TrayLine = z
  .object({
    id: Id,
    chartNumber: z.string(),
    teeth: z.array(z.string()),
    techniqueName: z.string(),
    locationName: z.string(),
    appointmentAt: Instant,
    state: z.enum(trayStates),
    verdict: z.enum(["stop", "caution", "clear"]),
    missing: z.int(),
    items: z.int(),
    records: RecordsOfTray,
  })
  .meta({ id: "TrayLine" });
export type TrayLine = z.infer<typeof TrayLine>;
export const TrayQuery = z.strictObject({
  on: CivilDate.optional().meta({ description: "Appointments of that day in the practice's zone" }),
});
export type TrayQuery = z.infer<typeof TrayQuery>;
export const Trays = z.object({ trays: z.array(TrayLine) }).meta({ id: "Trays" });
export type Trays = z.infer<typeof Trays>;

export const DowntimeQuery = z.strictObject({
  on: CivilDate.optional().meta({ description: "Appointments of that day in the practice's zone" }),
  blanks: z.coerce
    .number()
    .int()
    .min(0)
    .max(20)
    .default(2)
    .meta({ description: "Pages for visits that nobody planned" }),
  language: z.enum(["en", "de"]).optional(),
});
export type DowntimeQuery = z.infer<typeof DowntimeQuery>;

/** The scan's own answer first: the item, then the tray's verdict with it. */
export const ScannedIntoTray = z
  .object({ item: TrayItemView, check: CheckView })
  .meta({ id: "ScannedIntoTray" });
export type ScannedIntoTray = z.infer<typeof ScannedIntoTray>;

export const OverrideFinding = z
  .strictObject({
    code: z.string().max(60),
    subject: z
      .string()
      .max(200)
      .meta({ description: "The finding's item id, or its step key where it has no item" }),
    reason: z.string().trim().min(5).max(2000),
  })
  .meta({ id: "OverrideFinding" });
export type OverrideFinding = z.infer<typeof OverrideFinding>;
export const ClearTray = z
  .strictObject({
    usedUp: z.array(Id).max(50).default([]).meta({ description: "Containers now empty" }),
    returned: z
      .array(z.strictObject({ containerId: Id, locationId: Id }))
      .max(50)
      .default([])
      .meta({ description: "Where the others go; one not named stays in the room" }),
    discarded: z
      .array(z.strictObject({ containerId: Id, note: z.string().trim().min(3).max(2000) }))
      .max(50)
      .default([]),
  })
  .meta({ id: "ClearTray" });
export type ClearTray = z.infer<typeof ClearTray>;
export const TrayReturns = z
  .object({
    containers: z.array(
      z.object({
        containerId: Id,
        cameFrom: z.object({ id: Id, name: z.string() }).nullable().meta({
          description: "Where it stood before it was set out; null where it was in the room",
        }),
        place: z.object({ id: Id, name: z.string() }).meta({ description: "Where it is now" }),
        onShelf: z.boolean().meta({ description: "False in quarantine, or once it is gone" }),
        otherTray: z
          .object({ id: Id, name: z.string(), room: z.object({ id: Id, name: z.string() }) })
          .nullable()
          .meta({ description: "The next tray on which it stands as well" }),
      }),
    ),
  })
  .meta({ id: "TrayReturns" });
export type TrayReturns = z.infer<typeof TrayReturns>;
