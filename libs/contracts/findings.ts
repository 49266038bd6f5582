/** A check's answer, as the API carries it. */
import { z } from "zod";
import { findingCodes, findingLevels, remedyCodes, verdicts } from "#domain";
import { Instant } from "./common.ts";

const Numbers = z.record(z.string(), z.union([z.string(), z.number()]));

export const FindingView = z
  .object({
    code: z.enum(findingCodes),
    level: z.enum(findingLevels),
    subject: z.object({
      type: z.enum(["container", "product", "step", "light", "tooth"]),
      itemId: z.string().nullable(),
      containerId: z.string().nullable(),
      stepKey: z.string().nullable(),
      name: z.string(),
    }),
    numbers: Numbers,
    remedy: z.object({ code: z.enum(remedyCodes), numbers: Numbers }),
    because: z.array(
      z.object({
        what: z.string(),
        value: z.union([z.string(), z.number()]),
        from: z.enum([
          "ifu",
          "technique",
          "practice",
          "label",
          "stock",
          "reading",
          "withdrawal",
          "patient",
          "light",
          "record",
        ]),
      }),
    ),
    until: z.string().nullable(),
    overridden: z
      .object({ by: z.string(), at: Instant, reason: z.string() })
      .nullable()
      .meta({ description: "Set where a dentist has passed this stop" }),
  })
  .meta({ id: "Finding" });
export type FindingView = z.infer<typeof FindingView>;

export const CheckView = z
  .object({
    at: Instant,
    verdict: z.enum(verdicts),
    findings: z.array(FindingView),
    mayStart: z.boolean().meta({ description: "No stop is left that a dentist has not passed" }),
  })
  .meta({ id: "Check" });
export type CheckView = z.infer<typeof CheckView>;
