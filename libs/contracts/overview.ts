/** Today's page, and the audit chain. */
import { z } from "zod";
import { CivilDate, Id, Instant, Page } from "./common.ts";
import { ContainerView } from "./stock.ts";
import { TrayLine } from "./trays.ts";

export const Today = z
  .object({
    on: CivilDate,
    at: Instant,
    trays: z.array(TrayLine),
    ending: z.array(ContainerView).meta({ description: "Here, and past or short of their end" }),
    drafts: z.array(
      z.object({
        recordId: Id,
        trayId: Id,
        chartNumber: z.string(),
        tooth: z.string(),
        startedAt: Instant,
      }),
    ),
    withdrawals: z.array(
      z.object({ id: Id, reference: z.string(), receivedAt: Instant, here: z.int() }),
    ),
    waiting: z
      .object({ overdue: z.int(), longestDays: z.int(), limitDays: z.int() })
      .meta({ description: "Sealed teeth overdue for their bonding, without a tray for it" }),
    lights: z
      .array(z.object({ id: Id, name: z.string(), state: z.enum(["due", "weak", "unread"]) }))
      .meta({ description: "Curing lights that need a look" }),
    excursions: z
      .array(z.object({ id: Id, place: z.string(), from: Instant, containers: z.int() }))
      .meta({ description: "Not settled" }),
    unconfirmed: z.array(z.object({ id: Id, name: z.string() })),
  })
  .meta({ id: "Today" });
export type Today = z.infer<typeof Today>;

export const AuditQuery = z.strictObject({
  before: z.coerce.number().int().positive().optional(),
  limit: Page.limit,
});
export type AuditQuery = z.infer<typeof AuditQuery>;
export const AuditEntryView = z
  .object({
    sequence: z.int(),
    at: Instant,
    person: z.string().nullable(),
    action: z.string(),
    subject: z.string(),
    change: z.string(),
    hash: z.string(),
  })
  .meta({ id: "AuditEntry" });
export const Audit = z.object({ entries: z.array(AuditEntryView) }).meta({ id: "Audit" });
export type Audit = z.infer<typeof Audit>;
export const Verification = z
  .object({
    entries: z.int(),
    head: z.string().nullable(),
    fault: z.object({ sequence: z.int(), what: z.string() }).nullable(),
    ledger: z.object({ balances: z.int(), differences: z.int() }),
    records: z.object({ signed: z.int(), faults: z.int() }),
    ok: z.boolean(),
  })
  .meta({ id: "Verification" });
export type Verification = z.infer<typeof Verification>;
