/** Techniques: versioned lists of steps that a practice makes its own. */
import { z } from "zod";
import { productKinds, provisionalKinds, solvents, toothModes } from "#domain";
import { TechniqueView } from "./catalogue.ts";
import { Id, Instant, Name } from "./common.ts";

const Seconds = z.int().min(0).max(3600).nullable().default(null);
const TenthMm = z.int().min(0).max(100);

export const TechniqueStepInput = z
  .strictObject({
    key: z
      .string()
      .regex(/^[a-z][a-z0-9-]{0,39}$/, "small letters, digits and dashes")
      .meta({ description: "Stays the same from version to version" }),
    name: z.string().trim().min(1).max(80),
    accepts: z.array(z.enum(productKinds)).max(productKinds.length).default([]),
    required: z.boolean().default(true),
    solventsAllowed: z.array(z.enum(solvents)).max(4).nullable().default(null),
    solventNeeded: z.enum(solvents).nullable().default(null),
    etchesDentin: z.boolean().default(false),
    applicationSeconds: Seconds,
    airDrySeconds: Seconds,
    cureSeconds: Seconds,
    when: z
      .strictObject({
        modes: z.array(z.enum(toothModes)).max(toothModes.length).nullable().default(null),
        provisional: z.enum(provisionalKinds).nullable().default(null),
        undercut: z.boolean().nullable().default(null),
      })
      .nullable()
      .default(null),
    lightDistanceTenthMm: z.int().min(0).max(300).nullable().default(null),
    thicknessTenthMm: z.strictObject({ min: TenthMm, max: TenthMm }).nullable().default(null),
    minFillerPercent: z.number().min(0).max(100).nullable().default(null),
    minModulusGpa: z.number().min(0.1).max(1000).nullable().default(null),
  })
  .meta({ id: "TechniqueStepInput" });
export type TechniqueStepInput = z.infer<typeof TechniqueStepInput>;

const steps = z.array(TechniqueStepInput).min(1).max(30);
export const AddTechnique = z
  .strictObject({
    name: Name,
    visit: z.enum(["sealing", "bonding"]),
    steps,
    madeFrom: Id.nullable()
      .default(null)
      .meta({ description: "The starter or technique it was copied from" }),
  })
  .meta({ id: "AddTechnique" });
export type AddTechnique = z.infer<typeof AddTechnique>;
export const ChangeTechnique = z
  .strictObject({ name: Name, steps })
  .meta({ id: "ChangeTechnique", description: "Makes a new version of the one in the path" });
export type ChangeTechnique = z.infer<typeof ChangeTechnique>;
export const ActOnTechnique = z.strictObject({}).meta({ id: "ActOnTechnique" });
export type ActOnTechnique = z.infer<typeof ActOnTechnique>;

const About = z.object({ by: z.string(), at: Instant });
export const TechniqueDetail = z
  .object({
    ...TechniqueView.shape,
    retired: z.boolean().meta({ description: "A later version is used, or none any more" }),
    madeFrom: z.object({ id: Id, name: z.string(), version: z.int() }).nullable(),
    created: z.object({ by: z.string().nullable(), at: Instant }),
    confirmed: About.nullable().meta({
      description: "A dentist has compared it with the instructions for use",
    }),
    versions: z
      .array(z.object({ id: Id, version: z.int(), createdAt: Instant }))
      .meta({ description: "Latest first" }),
  })
  .meta({ id: "TechniqueDetail" });
export type TechniqueDetail = z.infer<typeof TechniqueDetail>;
