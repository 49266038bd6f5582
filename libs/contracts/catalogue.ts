/** Products with the facts of their IFU, their device identifiers, systems and techniques. */
import { z } from "zod";
import {
  contents,
  productKinds,
  provisionalKinds,
  solvents,
  strategies,
  toothModes,
} from "#domain";
import { Id, Instant, Name, ShortText } from "./common.ts";

const Seconds = z.int().min(0).max(3600);
const Version = z.int().min(1).max(2_147_483_647);
export const IdentifierScheme = z.enum(["gs1-gtin", "hibc", "ppn"]);

export const Identifier = z
  .strictObject({
    scheme: IdentifierScheme,
    value: z
      .string()
      .min(1)
      .max(40)
      .meta({ description: "GTIN as 14 digits; HIBC as LIC, PCN, unit" }),
    packLevel: z.enum(["unit", "box", "case"]).default("unit"),
    containers: z.int().min(1).max(10000).default(1),
  })
  .meta({ id: "Identifier" });
export type Identifier = z.infer<typeof Identifier>;

export const ProductInput = z
  .strictObject({
    name: Name,
    labeler: ShortText.max(200).default(""),
    kind: z.enum(productKinds),
    solvents: z.array(z.enum(solvents)).max(4).nullable().default(null),
    strategy: z.enum(strategies).nullable().default(null),
    systemId: Id.nullable().default(null),
    contents: z.array(z.enum(contents)).max(contents.length).default([]),
    inUseLife: z
      .strictObject({ count: z.int().min(1).max(1200), unit: z.enum(["day", "month"]) })
      .nullable()
      .default(null),
    applicationSeconds: Seconds.nullable().default(null),
    airDrySeconds: Seconds.nullable().default(null),
    cureSeconds: Seconds.nullable().default(null),
    radiantExposureJCm2: z.number().min(0.01).max(1000).nullable().default(null),
    warmUpMinutes: z
      .int()
      .min(1)
      .max(1440)
      .nullable()
      .default(null)
      .meta({ description: "Out of the refrigerator before use" }),
    dropLifeSeconds: z
      .int()
      .min(1)
      .max(3600)
      .nullable()
      .default(null)
      .meta({ description: "A dispensed drop may wait so long" }),
    fillerPercent: z.number().min(0).max(100).nullable().default(null),
    modulusGpa: z.number().min(0.1).max(1000).nullable().default(null),
    excursionLevel: z
      .enum(["caution", "stop"])
      .default("caution")
      .meta({ description: "What an unresolved excursion of its storage means" }),
    storageMinC: z.number().min(-99).max(99).nullable().default(null),
    storageMaxC: z.number().min(-99).max(99).nullable().default(null),
    singleUse: z.boolean().default(false),
    usesPerContainer: z.int().min(1).max(10000).nullable().default(null),
    ifuVersion: z.string().max(200).default(""),
  })
  .meta({ id: "ProductInput" });
export type ProductInput = z.infer<typeof ProductInput>;

export const AddProduct = ProductInput.extend({
  identifiers: z.array(Identifier).max(20).default([]),
}).meta({ id: "AddProduct" });
export type AddProduct = z.infer<typeof AddProduct>;
export const ChangeProduct = ProductInput.extend({
  version: Version.meta({ description: "The version the change was made from" }),
}).meta({ id: "ChangeProduct" });
export type ChangeProduct = z.infer<typeof ChangeProduct>;
export const ConfirmProduct = z
  .strictObject({ version: Version, ifuVersion: z.string().trim().min(1).max(200) })
  .meta({ id: "ConfirmProduct" });
export type ConfirmProduct = z.infer<typeof ConfirmProduct>;

export const ProductView = z
  .object({
    ...ProductInput.shape,
    id: Id,
    version: z.int(),
    systemName: z.string().nullable(),
    identifiers: z.array(Identifier),
    confirmed: z.object({ by: z.string(), at: Instant }).nullable(),
  })
  .meta({ id: "Product" });
export type ProductView = z.infer<typeof ProductView>;
export const ProductQuery = z.strictObject({
  kind: z.enum(productKinds).optional(),
  q: z.string().max(100).optional(),
});
export type ProductQuery = z.infer<typeof ProductQuery>;
export const Products = z.object({ products: z.array(ProductView) }).meta({ id: "Products" });
export type Products = z.infer<typeof Products>;

export const System = z.object({ id: Id, name: z.string() }).meta({ id: "System" });
export type System = z.infer<typeof System>;
export const Systems = z.object({ systems: z.array(System) }).meta({ id: "Systems" });
export type Systems = z.infer<typeof Systems>;
export const AddSystem = z.strictObject({ name: Name }).meta({ id: "AddSystem" });
export type AddSystem = z.infer<typeof AddSystem>;

export const TechniqueStepView = z
  .object({
    key: z.string(),
    name: z.string(),
    accepts: z.array(z.enum(productKinds)),
    required: z.boolean(),
    solventsAllowed: z.array(z.enum(solvents)).nullable(),
    solventNeeded: z.enum(solvents).nullable(),
    etchesDentin: z.boolean(),
    applicationSeconds: z.int().nullable(),
    airDrySeconds: z.int().nullable(),
    cureSeconds: z.int().nullable(),
    when: z
      .object({
        modes: z.array(z.enum(toothModes)).nullable(),
        provisional: z.enum(provisionalKinds).nullable(),
        undercut: z.boolean().nullable(),
      })
      .nullable()
      .meta({ description: "The teeth it is for; null is every tooth" }),
    lightDistanceTenthMm: z.int().nullable(),
    thicknessTenthMm: z.object({ min: z.int(), max: z.int() }).nullable(),
    minFillerPercent: z.number().nullable(),
    minModulusGpa: z.number().nullable(),
  })
  .meta({ id: "TechniqueStep" });
export const TechniqueView = z
  .object({
    id: Id,
    key: z.string(),
    name: z.string(),
    version: z.int(),
    visit: z.enum(["sealing", "bonding"]),
    starter: z.boolean(),
    steps: z.array(TechniqueStepView),
  })
  .meta({ id: "Technique" });
export type TechniqueView = z.infer<typeof TechniqueView>;
export const TechniqueLine = z
  .object({
    ...TechniqueView.shape,
    confirmedAt: Instant.nullable().meta({
      description: "When a dentist confirmed it; a starter never is",
    }),
  })
  .meta({ id: "TechniqueLine" });
export type TechniqueLine = z.infer<typeof TechniqueLine>;
export const Techniques = z
  .object({ techniques: z.array(TechniqueLine) })
  .meta({ id: "Techniques" });
export type Techniques = z.infer<typeof Techniques>;
