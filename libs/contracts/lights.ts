/** Curing lights, their modes and what a radiometer read of them. */
import { z } from "zod";
import { CivilDate, Id, Instant, ShortText } from "./common.ts";

const LightPhase = z.strictObject({
  seconds: z.number().min(0.1).max(120),
  fromPercent: z.number().min(0).max(100),
  toPercent: z.number().min(0).max(100),
});
const ModeName = z.string().trim().min(1).max(60);
const LightMode = z
  .strictObject({
    name: ModeName,
    phases: z
      .array(LightPhase)
      .max(6)
      .default([])
      .meta({ description: "Shares of the measured output over time; none is constant" }),
  })
  .meta({ id: "LightMode" });

const facts = {
  name: z.string().trim().min(1).max(100),
  serial: z.string().max(100).default(""),
  tipTenthMm: z
    .int()
    .min(10)
    .max(300)
    .nullable()
    .default(null)
    .meta({ description: "Diameter of its round tip, in tenths of a millimetre" }),
  locationId: Id.nullable().default(null).meta({ description: "The operatory it belongs to" }),
};
export const AddLight = z
  .strictObject({
    ...facts,
    modes: z
      .array(LightMode)
      .min(1)
      .max(10)
      .refine((modes) => new Set(modes.map(({ name }) => name)).size === modes.length, {
        message: "each mode once",
      }),
  })
  .meta({ id: "AddLight" });
export type AddLight = z.infer<typeof AddLight>;
export const ChangeLight = z
  .strictObject({ ...facts, retired: z.boolean().default(false) })
  .meta({ id: "ChangeLight" });
export type ChangeLight = z.infer<typeof ChangeLight>;

export const AddLightReading = z
  .strictObject({
    mode: ModeName,
    distanceTenthMm: z.int().min(0).max(300).default(0),
    irradianceMwCm2: z.int().min(0).max(20_000).optional(),
    powerMw: z
      .int()
      .min(0)
      .max(20_000)
      .optional()
      .meta({ description: "In place of an irradiance at the tip: its exitance is reckoned" }),
    radiometer: z.string().max(100).default(""),
    note: ShortText.default(""),
    readAt: Instant.optional(),
    replacesId: Id.optional().meta({ description: "A wrong reading, which then counts no more" }),
  })
  .refine((one) => (one.irradianceMwCm2 === undefined) !== (one.powerMw === undefined), {
    message: "an irradiance or a power",
    path: ["irradianceMwCm2"],
  })
  .meta({ id: "AddLightReading" });
export type AddLightReading = z.infer<typeof AddLightReading>;

export const LightReadingView = z
  .object({
    id: Id,
    mode: z.string(),
    distanceTenthMm: z.int(),
    irradianceMwCm2: z.int(),
    radiometer: z.string(),
    note: z.string(),
    readAt: Instant,
    person: z.string(),
    replaced: z.boolean().meta({ description: "A later reading stands in its place" }),
  })
  .meta({ id: "LightReading" });
export type LightReadingView = z.infer<typeof LightReadingView>;

const AtDistance = z.object({
  distanceTenthMm: z.int(),
  irradianceMwCm2: z.int(),
  readAt: Instant,
});
export const LightView = z
  .object({
    id: Id,
    name: z.string(),
    serial: z.string(),
    tipTenthMm: z.int().nullable(),
    location: z.object({ id: Id, name: z.string() }).nullable(),
    retired: z.boolean(),
    state: z.enum(["good", "due", "weak", "unread"]).meta({
      description: "due: not read within the practice's days; weak: below its floor at the tip",
    }),
    readOn: CivilDate.nullable(),
    dueOn: CivilDate.nullable(),
    lossPercent: z
      .number()
      .nullable()
      .meta({ description: "At the tip in the first mode, against its own first reading" }),
    modes: z.array(
      z.object({
        name: z.string(),
        phases: z.array(LightPhase),
        table: z.array(AtDistance).meta({ description: "The latest reading at each distance" }),
      }),
    ),
    readings: z.array(LightReadingView).meta({ description: "Oldest first" }),
  })
  .meta({ id: "Light" });
export type LightView = z.infer<typeof LightView>;
export const Lights = z.object({ lights: z.array(LightView) }).meta({ id: "Lights" });
export type Lights = z.infer<typeof Lights>;
