/** Storage that went out of range, and when a product is ordered again. */
import { z } from "zod";
import { Id, Instant, ShortText } from "./common.ts";

const Celsius = z.number().min(-99).max(99);

export const OpenExcursion = z
  .strictObject({
    locationId: Id,
    from: Instant,
    to: Instant,
    lowestC: Celsius.nullable().default(null),
    highestC: Celsius.nullable().default(null),
    note: ShortText.default(""),
  })
  .refine(({ from, to }) => Date.parse(from) < Date.parse(to), {
    message: "ends after it begins",
    path: ["to"],
  })
  .refine(({ lowestC, highestC }) => lowestC !== null || highestC !== null, {
    message: "say how cold or how warm it was",
    path: ["highestC"],
  })
  .refine(({ lowestC: low, highestC: high }) => low === null || high === null || low <= high, {
    message: "not below the lowest",
    path: ["highestC"],
  })
  .meta({ id: "OpenExcursion" });
export type OpenExcursion = z.infer<typeof OpenExcursion>;

export const ResolveExcursion = z
  .strictObject({ resolution: z.string().trim().min(5).max(2000) })
  .meta({ id: "ResolveExcursion" });
export type ResolveExcursion = z.infer<typeof ResolveExcursion>;

export const ExcursionView = z
  .object({
    id: Id,
    location: z.object({ id: Id, name: z.string() }),
    from: Instant,
    to: Instant,
    lowestC: z.number().nullable(),
    highestC: z.number().nullable(),
    note: z.string(),
    openedBy: z.string(),
    openedAt: Instant,
    containers: z.int().meta({ description: "Still here that stood there meanwhile" }),
    products: z
      .array(
        z.object({
          id: Id,
          name: z.string(),
          containers: z.int(),
          storageMinC: z.number().nullable(),
          storageMaxC: z.number().nullable(),
        }),
      )
      .meta({ description: "What those are, and how their entries want them kept" }),
    resolved: z.object({ by: z.string(), at: Instant, resolution: z.string() }).nullable(),
  })
  .meta({ id: "Excursion" });
export type ExcursionView = z.infer<typeof ExcursionView>;
export const Excursions = z
  .object({ excursions: z.array(ExcursionView) })
  .meta({ id: "Excursions" });
export type Excursions = z.infer<typeof Excursions>;

export const SetReorderPoint = z
  .strictObject({
    reorderUses: z
      .int()
      .min(1)
      .max(100_000)
      .nullable()
      .meta({ description: "Fewer uses left than this is low; null takes the point away" }),
  })
  .meta({ id: "SetReorderPoint" });
export type SetReorderPoint = z.infer<typeof SetReorderPoint>;
export const ProductStock = z
  .object({
    usesLeft: z.int().nullable().meta({ description: "Null where its uses are not stated" }),
    reorderUses: z.int().nullable(),
  })
  .meta({ id: "ProductStock" });
export type ProductStock = z.infer<typeof ProductStock>;
