/** How strict a practice's checks are: thresholds, and cautions raised to stops. */
import { z } from "zod";
import { findingCodes, findingLevels } from "#domain";

const Seconds = z.int().min(0).max(120);

export const ChangeCheckSettings = z
  .strictObject({
    shortDatedDays: z.int().min(0).max(730),
    airDrySeconds: z
      .strictObject({ acetone: Seconds, ethanol: Seconds, "tert-butanol": Seconds, water: Seconds })
      .meta({ description: "By slowest solvent, used only where an IFU is silent" }),
    lightCeilingMwCm2: z.int().min(500).max(10_000),
    lightFloorMwCm2: z.int().min(100).max(5000),
    lightCheckDays: z.int().min(1).max(730),
    waitingLimitDays: z
      .int()
      .min(1)
      .max(365)
      .meta({ description: "A sealed tooth that waits for longer is overdue" }),
    raised: z
      .array(z.enum(findingCodes))
      .max(findingCodes.length)
      .meta({ description: "Codes of cautions that are to be stops; no stop can be lowered" }),
  })
  .meta({ id: "ChangeCheckSettings" });
export type ChangeCheckSettings = z.infer<typeof ChangeCheckSettings>;

export const CheckSettingsView = z
  .object({
    ...ChangeCheckSettings.shape,
    checks: z.array(
      z.object({
        code: z.enum(findingCodes),
        level: z.enum(findingLevels).meta({ description: "Before any raising" }),
        fixed: z.boolean().meta({ description: "A stop that no setting may weaken" }),
      }),
    ),
  })
  .meta({ id: "CheckSettings" });
export type CheckSettingsView = z.infer<typeof CheckSettingsView>;
