/** What changes while a page is open, and how often a finding is passed. */
import { z } from "zod";
import { findingCodes, verdicts } from "#domain";
import { Id, Instant } from "./common.ts";

export const LiveQuery = z.strictObject({
  once: z
    .enum(["true"])
    .optional()
    .meta({ description: "Answers the state of now and ends, for programs that ask again" }),
});
export type LiveQuery = z.infer<typeof LiveQuery>;

export const VerdictChange = z
  .object({
    id: Id,
    trayId: Id,
    chartNumber: z.string(),
    teeth: z.array(z.string()),
    appointmentAt: Instant,
    before: z.enum(verdicts),
    after: z.enum(verdicts),
    codes: z.array(z.enum(findingCodes)),
    cause: z.string().meta({ description: "The action that led to it, or day-begun" }),
    at: Instant,
  })
  .meta({ id: "VerdictChange" });
export type VerdictChange = z.infer<typeof VerdictChange>;
export const VerdictChanges = z
  .object({ changes: z.array(VerdictChange) })
  .meta({ id: "VerdictChanges" });
export type VerdictChanges = z.infer<typeof VerdictChanges>;

export const CheckStatisticsQuery = z.strictObject({
  months: z.coerce.number().int().min(1).max(36).default(12),
});
export type CheckStatisticsQuery = z.infer<typeof CheckStatisticsQuery>;
export const CheckStatistics = z
  .object({
    lines: z.array(
      z.object({
        month: z.string().meta({ description: "YYYY-MM in the practice's zone" }),
        code: z.enum(findingCodes),
        level: z.enum(["stop", "caution"]),
        seen: z.int().meta({ description: "Trays on which it was found" }),
        wentAhead: z.int().meta({
          description: "Of these, trays on which priming started with it: a stop was passed",
        }),
      }),
    ),
  })
  .meta({ id: "CheckStatistics" });
export type CheckStatistics = z.infer<typeof CheckStatistics>;
