/** Templates of trays: what a practice sets out time and again. */
import { z } from "zod";
import { provisionalKinds, toothModes } from "#domain";
import { Id } from "./common.ts";

const isOnce = <T>(list: readonly T[]): boolean => new Set(list).size === list.length;

const StepProducts = z.strictObject({
  stepKey: z.string().min(1).max(60),
  productIds: z
    .array(Id)
    .min(1)
    .max(20)
    .refine(isOnce, { message: "each product once" })
    .meta({ description: "What usually goes in the step, most preferred first" }),
});

export const SaveTemplate = z
  .strictObject({
    name: z.string().trim().min(1).max(100),
    techniqueId: Id,
    locationId: Id,
    mode: z.enum(toothModes).nullable().default(null),
    provisional: z.enum(provisionalKinds).default("none"),
    undercut: z.boolean().default(false),
    products: z
      .array(StepProducts)
      .max(60)
      .default([])
      .refine((steps) => isOnce(steps.map(({ stepKey }) => stepKey)), {
        message: "each step once",
      }),
  })
  .meta({ id: "SaveTemplate" });
export type SaveTemplate = z.infer<typeof SaveTemplate>;

const Named = z.object({ id: Id, name: z.string() });
export const TemplateView = z
  .object({
    id: Id,
    name: z.string(),
    technique: Named.nullable().meta({
      description: "In the version in use; null where it is out of use",
    }),
    location: Named,
    mode: z.enum(toothModes).nullable(),
    provisional: z.enum(provisionalKinds),
    undercut: z.boolean(),
    products: z.array(z.object({ stepKey: z.string(), products: z.array(Named) })),
  })
  .meta({ id: "Template" });
export type TemplateView = z.infer<typeof TemplateView>;
export const Templates = z.object({ templates: z.array(TemplateView) }).meta({ id: "Templates" });
export type Templates = z.infer<typeof Templates>;
