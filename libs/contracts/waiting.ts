/** Sealed teeth that wait for their lab-made restoration, and what their surface needs. */
import { z } from "zod";
import {
  provisionalKinds,
  restorationKinds,
  surfaceNeedCodes,
  surfaceNeedSources,
  trayStates,
} from "#domain";
import { CivilDate, Id, Instant, Page, ShortText } from "./common.ts";

export const SurfaceNeedView = z
  .object({
    code: z.enum(surfaceNeedCodes),
    level: z.enum(["caution", "info"]),
    numbers: z.record(z.string(), z.union([z.string(), z.number()])),
    source: z.enum(surfaceNeedSources),
  })
  .meta({ id: "SurfaceNeed" });
export type SurfaceNeedView = z.infer<typeof SurfaceNeedView>;

export const waitingReasons = ["moved-away", "tooth-lost", "bonded-elsewhere", "other"] as const;

const surface = {
  sealId: Id.meta({ description: "The newest signed version of the sealing record" }),
  tooth: z.string(),
  sealedOn: CivilDate,
  days: z.int().meta({ description: "Civil days since, in the practice's zone" }),
  provisional: z.enum(provisionalKinds).meta({ description: "As planned" }),
  cement: z
    .object({
      productName: z.string(),
      lotId: Id.nullable(),
      lot: z.string().nullable().meta({ description: "Null where it was not scanned" }),
    })
    .nullable()
    .meta({ description: "What held the provisional; null where none was noted" }),
  needs: z.array(SurfaceNeedView).meta({
    description: "What the surface needs before bonding; the instructions for use come first",
  }),
};
const off = z
  .object({ reason: z.enum(waitingReasons), note: z.string(), by: z.string(), at: Instant })
  .nullable()
  .meta({ description: "Why somebody took it off the list" });

export const WaitingSeal = z
  .object({
    ...surface,
    chartNumber: z.string(),
    overdue: z.boolean(),
    restoration: z.enum(restorationKinds).nullable(),
    plannedOn: CivilDate.nullable().meta({
      description: "The bonding visit, as planned back then",
    }),
    visit: z
      .object({ trayId: Id, appointmentAt: Instant, state: z.enum(trayStates) })
      .nullable()
      .meta({ description: "The next bonding visit that has a tray" }),
    bonded: z.boolean(),
    off,
  })
  .meta({ id: "WaitingSeal" });
export type WaitingSeal = z.infer<typeof WaitingSeal>;

export const WaitingQuery = z.strictObject({
  list: z
    .enum(["waiting", "overdue", "off"])
    .default("waiting")
    .meta({ description: "'off' are those that somebody took off the list" }),
  chart: z.string().max(40).optional(),
  limit: Page.limit,
  after: Id.optional(),
});
export type WaitingQuery = z.infer<typeof WaitingQuery>;
export const WaitingSeals = z
  .object({
    on: CivilDate,
    limitDays: z.int().meta({ description: "More days than these are overdue" }),
    seals: z.array(WaitingSeal),
    next: Id.nullable(),
  })
  .meta({ id: "WaitingSeals", description: "Those that have waited longest first" });
export type WaitingSeals = z.infer<typeof WaitingSeals>;

export const ChangeWaiting = z
  .discriminatedUnion("waits", [
    z.strictObject({
      waits: z.literal(false),
      reason: z.enum(waitingReasons),
      note: ShortText.trim().default(""),
    }),
    z.strictObject({ waits: z.literal(true), note: ShortText.trim().default("") }),
  ])
  .meta({ id: "ChangeWaiting" });
export type ChangeWaiting = z.infer<typeof ChangeWaiting>;

/** A seal that a bonding visit can build on. */
export const SealOfTooth = z
  .object({ ...surface, bonded: z.boolean(), off: z.boolean(), waits: z.boolean() })
  .meta({ id: "SealOfTooth" });
export type SealOfTooth = z.infer<typeof SealOfTooth>;
export const TraySeals = z
  .object({
    teeth: z.array(
      z.object({
        tooth: z.string(),
        linked: Id.nullable().meta({ description: "Once its bonding record has been begun" }),
        seals: z.array(SealOfTooth),
      }),
    ),
  })
  .meta({ id: "TraySeals", description: "Of a bonding visit, by tooth; empty at a sealing" });
export type TraySeals = z.infer<typeof TraySeals>;
