/** The trace in both directions, and the case it serves. */
import { z } from "zod";
import { locationKinds, productKinds, trayStates, withdrawalStates } from "#domain";
import { CivilDate, Id, Instant, Name, ShortText } from "./common.ts";
import { ContainerView, UseBy } from "./stock.ts";

export const TraceQuery = z
  .strictObject({
    lot: z.string().max(40).optional(),
    identifier: z
      .string()
      .max(60)
      .optional()
      .meta({ description: "A device identifier, or a label" }),
    container: z.string().max(20).optional().meta({ description: "The container's short code" }),
  })
  .refine((q) => q.lot ?? q.identifier ?? q.container, {
    message: "say a lot, identifier or container",
  })
  .meta({ id: "TraceQuery" });
export type TraceQuery = z.infer<typeof TraceQuery>;

export const TracedTooth = z
  .object({
    certainty: z.enum(["certain", "inferred", "possible"]),
    chartNumber: z.string(),
    tooth: z.string(),
    recordId: Id,
    recordState: z.string(),
    visit: z.string(),
    stepKey: z.string(),
    containerCode: z.string().nullable(),
    usedAt: Instant,
  })
  .meta({ id: "TracedTooth" });
export const MassBalance = z
  .object({
    received: z.int(),
    onHand: z.int(),
    quarantined: z.int(),
    usedUp: z.int(),
    discarded: z.int(),
    returned: z.int(),
    lost: z.int(),
    countDifference: z.int(),
    unaccounted: z.int(),
    balanced: z.boolean(),
  })
  .meta({ id: "MassBalance" });
export const TracedLot = z
  .object({
    lotId: Id,
    lot: z.string(),
    useBy: UseBy.nullable(),
    product: z.object({ id: Id, name: z.string(), kind: z.enum(productKinds) }),
    identifiers: z.array(z.string()),
    withdrawn: z.boolean(),
    here: z.array(
      z.object({
        location: z.object({ id: Id, name: z.string(), kind: z.enum(locationKinds) }),
        quantity: z.int(),
        containers: z.array(ContainerView),
      }),
    ),
    planned: z.array(
      z.object({
        trayId: Id,
        chartNumber: z.string(),
        tooth: z.string(),
        appointmentAt: Instant,
        state: z.enum(trayStates),
        containerCode: z.string(),
      }),
    ),
    teeth: z.array(TracedTooth),
    patients: z.int(),
    balance: MassBalance,
  })
  .meta({ id: "TracedLot" });
export type TracedLot = z.infer<typeof TracedLot>;
export const Trace = z
  .object({
    asked: z.object({
      lot: z.string().nullable(),
      identifier: z.string().nullable(),
      container: z.string().nullable(),
    }),
    at: Instant,
    lots: z.array(TracedLot),
    lookAlikes: z
      .array(z.object({ lotId: Id, lot: z.string(), productName: z.string() }))
      .meta({ description: "Other lots whose text could be misread for this one: never merged" }),
  })
  .meta({ id: "Trace" });
export type Trace = z.infer<typeof Trace>;

export const PatientQuery = z.strictObject({
  chart: z.string().min(1).max(40),
  tooth: z.string().max(3).optional(),
});
export type PatientQuery = z.infer<typeof PatientQuery>;
export const PatientTrace = z
  .object({
    chartNumber: z.string(),
    teeth: z.array(
      z.object({
        tooth: z.string(),
        recordId: Id,
        recordState: z.string(),
        visit: z.string(),
        startedAt: Instant,
        materials: z.array(
          z.object({
            stepKey: z.string(),
            productName: z.string(),
            lot: z.string().nullable(),
            lotId: Id.nullable(),
            useBy: CivilDate.nullable(),
            containerCode: z.string().nullable(),
            usedAt: Instant,
          }),
        ),
      }),
    ),
  })
  .meta({ id: "PatientTrace" });
export type PatientTrace = z.infer<typeof PatientTrace>;

export const OpenWithdrawal = z
  .strictObject({
    reference: Name,
    note: ShortText.default(""),
    scope: z
      .array(
        z.strictObject({
          productId: Id,
          lot: z
            .string()
            .max(40)
            .default("")
            .meta({ description: "Empty: every lot of the product" }),
        }),
      )
      .min(1)
      .max(200),
  })
  .meta({ id: "OpenWithdrawal" });
export type OpenWithdrawal = z.infer<typeof OpenWithdrawal>;
export const WithdrawalView = z
  .object({
    id: Id,
    reference: z.string(),
    note: z.string(),
    state: z.enum(withdrawalStates),
    receivedAt: Instant,
    receivedBy: z.string(),
    closedAt: Instant.nullable(),
    summary: z.string().nullable(),
    scope: z.array(z.object({ productId: Id, productName: z.string(), lot: z.string() })),
    trace: z.array(TracedLot),
  })
  .meta({ id: "Withdrawal" });
export type WithdrawalView = z.infer<typeof WithdrawalView>;
export const Withdrawals = z
  .object({ withdrawals: z.array(WithdrawalView.omit({ trace: true })) })
  .meta({ id: "Withdrawals" });
export type Withdrawals = z.infer<typeof Withdrawals>;
export const Segregated = z
  .object({ moved: z.int(), withdrawal: WithdrawalView })
  .meta({ id: "Segregated" });
export type Segregated = z.infer<typeof Segregated>;
export const CloseWithdrawal = z
  .strictObject({ summary: z.string().trim().min(3).max(5000) })
  .meta({ id: "CloseWithdrawal" });
export type CloseWithdrawal = z.infer<typeof CloseWithdrawal>;
