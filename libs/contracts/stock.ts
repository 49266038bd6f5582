/** Scans, deliveries, containers, movements. */
import { z } from "zod";
import { containerStates, locationKinds, productKinds } from "#domain";
import { Barcode, Barcodes, CivilDate, GsTokens, Id, Instant, Page, ShortText } from "./common.ts";
import { IdentifierScheme } from "./catalogue.ts";
import { LocationView } from "./people.ts";

export const UseBy = z.object({ date: CivilDate, precision: z.enum(["day", "month"]) });

export const ContainerView = z
  .object({
    id: Id,
    code: z.string(),
    product: z.object({ id: Id, name: z.string(), kind: z.enum(productKinds) }),
    lotId: Id,
    lot: z.string(),
    useBy: UseBy.nullable(),
    serial: z.string().nullable(),
    openedOn: CivilDate.nullable(),
    endsOn: z
      .object({ date: CivilDate, decidedBy: z.enum(["use-by", "in-use-life"]) })
      .nullable()
      .meta({ description: "The last day of use and what decides it" }),
    state: z.enum(containerStates),
    location: z.object({ id: Id, name: z.string(), kind: z.enum(locationKinds) }),
    withdrawn: z.boolean(),
  })
  .meta({ id: "Container" });
export type ContainerView = z.infer<typeof ContainerView>;

/** What a label says of itself, however little. */
export const Reading = z
  .object({
    ok: z.boolean(),
    scheme: z.string().nullable(),
    identifier: z.object({ scheme: IdentifierScheme, value: z.string() }).nullable(),
    lot: z.string().nullable(),
    serial: z.string().nullable(),
    useBy: UseBy.nullable(),
    warnings: z.array(z.string()),
    error: z
      .object({
        kind: z.string(),
        at: z.int(),
        length: z.int(),
        detail: z.string().optional(),
      })
      .nullable(),
  })
  .meta({ id: "Reading" });
export type Reading = z.infer<typeof Reading>;

export const ReadScan = z
  .strictObject({ barcodes: Barcodes, gsTokens: GsTokens.optional() })
  .meta({ id: "ReadScan" });
export type ReadScan = z.infer<typeof ReadScan>;
export const ScanAnswer = z
  .object({
    reading: Reading,
    product: z.object({ id: Id, name: z.string(), kind: z.enum(productKinds) }).nullable(),
    containers: z
      .array(ContainerView)
      .meta({ description: "Those of the label's lot, best first" }),
    place: LocationView.nullable().meta({ description: "Where it is a place's own label" }),
    tray: z
      .object({ id: Id, chartNumber: z.string(), tooth: z.string() })
      .nullable()
      .meta({ description: "Where it is a tray's own label" }),
  })
  .meta({ id: "ScanAnswer" });
export type ScanAnswer = z.infer<typeof ScanAnswer>;

export const OpenDelivery = z
  .strictObject({ supplier: ShortText.max(200).default(""), note: ShortText.default("") })
  .meta({ id: "OpenDelivery" });
export type OpenDelivery = z.infer<typeof OpenDelivery>;
export const Receive = z
  .strictObject({
    barcodes: Barcodes,
    gsTokens: GsTokens.optional(),
    packLabels: z
      .array(Barcodes)
      .max(4)
      .optional()
      .meta({ description: "Further labels of the same pack, such as the bottle's in its box" }),
    locationId: Id,
    quantity: z
      .int()
      .min(1)
      .max(1000)
      .default(1)
      .meta({ description: "How many packs of this label" }),
    lot: z
      .string()
      .min(1)
      .max(40)
      .optional()
      .meta({ description: "Typed, where the label has none" }),
    useBy: CivilDate.optional().meta({ description: "Typed, where the label has none" }),
    acceptWithoutUseBy: z.boolean().default(false),
  })
  .meta({ id: "Receive" });
export type Receive = z.infer<typeof Receive>;
export const DeliveryLineView = z
  .object({
    id: Id,
    receivedAt: Instant,
    product: z.object({ id: Id, name: z.string(), kind: z.enum(productKinds) }),
    lotId: Id,
    lot: z.string(),
    useBy: UseBy.nullable(),
    serial: z.string().nullable(),
    shortDated: z.boolean(),
    containers: z.array(z.object({ id: Id, code: z.string() })),
  })
  .meta({ id: "DeliveryLine" });
export type DeliveryLineView = z.infer<typeof DeliveryLineView>;
export const DeliveryView = z
  .object({
    id: Id,
    supplier: z.string(),
    note: z.string(),
    receivedAt: Instant,
    receivedBy: z.string(),
    lines: z.array(DeliveryLineView),
  })
  .meta({ id: "Delivery" });
export type DeliveryView = z.infer<typeof DeliveryView>;
export const Deliveries = z
  .object({ deliveries: z.array(DeliveryView.omit({ lines: true }).extend({ lines: z.int() })) })
  .meta({ id: "Deliveries" });
export type Deliveries = z.infer<typeof Deliveries>;

export const ContainerQuery = z.strictObject({
  location: Id.optional(),
  product: Id.optional(),
  lot: z.string().max(40).optional(),
  state: z.enum(containerStates).optional(),
  here: z
    .enum(["true", "false"])
    .optional()
    .meta({ description: "Only those still in the practice" }),
  ...Page,
});
export type ContainerQuery = z.infer<typeof ContainerQuery>;
export const Containers = z
  .object({ containers: z.array(ContainerView), next: z.string().nullable() })
  .meta({ id: "Containers" });
export type Containers = z.infer<typeof Containers>;

export const MovementView = z
  .object({
    id: Id,
    from: z.string(),
    to: z.string(),
    quantity: z.int(),
    reason: z.string(),
    note: z.string(),
    occurredAt: Instant,
    recordedAt: Instant,
    person: z.string(),
    reverses: Id.nullable(),
    reversedBy: Id.nullable(),
  })
  .meta({ id: "Movement" });
export type MovementView = z.infer<typeof MovementView>;
export const ContainerStory = z
  .object({
    container: ContainerView,
    movements: z.array(MovementView),
    uses: z.array(
      z.object({
        recordId: Id,
        chartNumber: z.string(),
        tooth: z.string(),
        stepKey: z.string(),
        usedAt: Instant,
      }),
    ),
  })
  .meta({ id: "ContainerStory" });
export type ContainerStory = z.infer<typeof ContainerStory>;

export const OpenContainer = z
  .strictObject({ on: CivilDate.optional().meta({ description: "Today, where it is not said" }) })
  .meta({ id: "OpenContainer" });
export type OpenContainer = z.infer<typeof OpenContainer>;
export const moveReasons = [
  "moved",
  "put-away",
  "quarantined",
  "released",
  "used-up",
  "discarded",
  "returned",
  "lost",
  "counted",
] as const;
export const Move = z
  .strictObject({
    containerId: Id.optional(),
    lotId: Id.optional(),
    fromLocationId: Id,
    toLocationId: Id,
    quantity: z.int().min(1).max(1_000_000).default(1),
    reason: z.enum(moveReasons),
    note: ShortText.default(""),
    occurredAt: Instant.optional().meta({ description: "When it happened, where told later" }),
  })
  .refine((m) => (m.containerId === undefined) !== (m.lotId === undefined), {
    message: "name either a container or a lot",
    path: ["containerId"],
  })
  .meta({ id: "Move" });
export type Move = z.infer<typeof Move>;
export const Moved = z.object({ movement: MovementView }).meta({ id: "Moved" });
export type Moved = z.infer<typeof Moved>;
export const Reverse = z
  .strictObject({ note: z.string().trim().min(3).max(2000) })
  .meta({ id: "Reverse" });
export type Reverse = z.infer<typeof Reverse>;

export const BalanceQuery = z.strictObject({ lot: Id.optional(), location: Id.optional() });
export type BalanceQuery = z.infer<typeof BalanceQuery>;
export const Balances = z
  .object({
    balances: z.array(
      z.object({
        lotId: Id,
        lot: z.string(),
        productName: z.string(),
        location: z.object({ id: Id, name: z.string(), kind: z.enum(locationKinds) }),
        quantity: z.int(),
      }),
    ),
  })
  .meta({ id: "Balances" });
export type Balances = z.infer<typeof Balances>;
export { Barcode };
