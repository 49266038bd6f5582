/** What was done to a tooth, with which containers and lots. */
import { z } from "zod";
import {
  amendments,
  deviations,
  recordStates,
  restorationKinds,
  timedParts,
  toothModes,
} from "#domain";
import { Barcodes, CivilDate, GsTokens, Id, Instant, Page, ShortText } from "./common.ts";
import { TechniqueView } from "./catalogue.ts";
import { CheckView, FindingView } from "./findings.ts";
import { Tooth } from "./trays.ts";

export const StartRecord = z
  .strictObject({
    happenedAt: Instant.optional().meta({
      description: "Where it is told later, from paper: when priming began; told is then now",
    }),
    seals: z
      .array(z.strictObject({ tooth: Tooth, sealId: Id.nullable() }))
      .max(16)
      .default([])
      .meta({
        description:
          "At a bonding visit, the seal of a tooth or null for none; a tooth with one seal that " +
          "waits needs no word",
      }),
  })
  .meta({ id: "StartRecord" });
export type StartRecord = z.infer<typeof StartRecord>;

export const AddRecordEvent = z
  .discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("step-started"),
      stepKey: z.string().max(60),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("step-done"),
      stepKey: z.string().max(60),
      seconds: z.int().min(0).max(7200).optional().meta({ description: "As the timer ran" }),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("not-scanned"),
      stepKey: z.string().max(60),
      productId: Id,
      reason: z.string().trim().min(3).max(2000),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("part-started"),
      stepKey: z.string().max(60),
      part: z.enum(timedParts),
      seconds: z.int().min(0).max(3600).meta({ description: "As planned" }),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("step-left-out"),
      stepKey: z.string().max(60),
      reason: ShortText.default(""),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("dispensed"),
      stepKey: z.string().max(60),
      containerId: Id.meta({ description: "A drop of it; its clock starts now" }),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("cure"),
      stepKey: z.string().max(60),
      seconds: z.int().min(1).max(3600),
      lightId: Id.nullable().meta({ description: "Null where the light is not one of the list" }),
      mode: z.string().max(60).optional(),
      distanceTenthMm: z.int().min(0).max(300).default(0),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("thickness"),
      stepKey: z.string().max(60),
      tenthMm: z.int().min(0).max(100).meta({ description: "Tenths of a millimetre" }),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("deviation"),
      stepKey: z.string().max(60).optional(),
      what: z.enum(deviations).default("other"),
      text: z
        .string()
        .trim()
        .max(2000)
        .default("")
        .meta({ description: "Needed where it is none of those named" }),
      occurredAt: Instant.optional(),
    }),
    z.strictObject({
      kind: z.literal("note"),
      text: ShortText.min(1),
      occurredAt: Instant.optional(),
    }),
  ])
  .meta({ id: "AddRecordEvent" });
export type AddRecordEvent = z.infer<typeof AddRecordEvent>;

export const SwapContainer = z
  .strictObject({
    stepKey: z.string().max(60),
    barcodes: Barcodes,
    gsTokens: GsTokens.optional(),
    replaces: Id.optional().meta({ description: "The container that ran out" }),
    emptied: z.boolean().default(false),
    occurredAt: Instant.optional(),
  })
  .meta({ id: "SwapContainer" });
export type SwapContainer = z.infer<typeof SwapContainer>;

const isProof = (told: { password?: string | undefined; pin?: string | undefined }): boolean =>
  (told.password === undefined) !== (told.pin === undefined);
const proofNeeded = { message: "sign with your password or your PIN", path: ["password"] };
export const SignRecord = z
  .strictObject({ password: z.string().max(128).optional(), pin: z.string().max(8).optional() })
  .refine(isProof, proofNeeded)
  .meta({ id: "SignRecord" });
export type SignRecord = z.infer<typeof SignRecord>;

const entries = AddRecordEvent.options;
const entryOf = <K extends AddRecordEvent["kind"]>(kind: K) =>
  entries.find((one) => one.shape.kind.value === kind) as Extract<
    (typeof entries)[number],
    { shape: { kind: z.ZodLiteral<K> } }
  >;
export const AmendmentEntry = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("used"),
    stepKey: z.string().max(60),
    containerId: Id.meta({ description: "Also one that is empty or gone by now" }),
    occurredAt: Instant.optional(),
  }),
  entryOf("not-scanned"),
  entryOf("cure"),
  entryOf("thickness"),
  entryOf("deviation"),
  entryOf("note"),
]);
export type AmendmentEntry = z.infer<typeof AmendmentEntry>;

export const AmendRecord = z
  .strictObject({
    amends: z.enum(amendments),
    reason: z.string().trim().min(5).max(2000),
    leaveOut: z
      .strictObject({
        events: z.array(z.int().positive()).max(200).default([]),
        materials: z.array(Id).max(200).default([]),
      })
      .default({ events: [], materials: [] })
      .meta({ description: "What was wrong: sequence numbers of entries, ids of materials" }),
    add: z.array(AmendmentEntry).max(100).default([]),
    sealId: Id.nullable().optional().meta({
      description: "A correction of a bonding: the seal it really builds on, null for none",
    }),
    password: z.string().max(128).optional(),
    pin: z.string().max(8).optional(),
  })
  .refine(isProof, proofNeeded)
  .meta({ id: "AmendRecord" });
export type AmendRecord = z.infer<typeof AmendRecord>;

export const StepMaterialView = z
  .object({
    id: Id,
    stepKey: z.string(),
    productName: z.string(),
    lotId: Id.nullable(),
    lot: z.string().nullable(),
    useBy: CivilDate.nullable(),
    containerId: Id.nullable(),
    containerCode: z.string().nullable(),
    notScannedReason: z.string().nullable(),
    usedAt: Instant,
    person: z.string(),
  })
  .meta({ id: "StepMaterial" });
export const RecordEventView = z
  .object({
    sequence: z.int(),
    kind: z.string(),
    stepKey: z.string().nullable(),
    facts: z.record(z.string(), z.unknown()),
    occurredAt: Instant,
    recordedAt: Instant,
    person: z.string(),
  })
  .meta({ id: "RecordEvent" });
export const CureView = z
  .object({
    seconds: z.int(),
    light: z.string(),
    mode: z.string().nullable(),
    distanceTenthMm: z.int(),
    irradianceMwCm2: z.int().nullable(),
    known: z.enum(["measured", "between", "estimate", "unknown"]),
    givenJCm2: z.number().nullable(),
    neededJCm2: z.number().nullable(),
  })
  .meta({ id: "Cure" });
export type CureView = z.infer<typeof CureView>;
export const PlannedStep = z
  .object({
    key: z.string(),
    name: z.string(),
    required: z.boolean(),
    usesMaterial: z.boolean(),
    applicationSeconds: z
      .object({ seconds: z.int(), from: z.enum(["ifu", "technique"]) })
      .nullable(),
    airDrySeconds: z.object({ seconds: z.int(), from: z.enum(["ifu", "technique"]) }).nullable(),
    cureSeconds: z.object({ seconds: z.int(), from: z.enum(["ifu", "technique"]) }).nullable(),
    containers: z.array(
      z.object({
        id: Id,
        code: z.string(),
        productName: z.string(),
        lot: z.string(),
        endsOn: CivilDate.nullable(),
      }),
    ),
    done: z.boolean(),
    leftOut: z.boolean(),
    startedAt: Instant.nullable(),
    running: z
      .object({ part: z.enum(timedParts), seconds: z.int(), startedAt: Instant })
      .nullable()
      .meta({ description: "The part whose clock runs, the same on every tablet" }),
    dispensedAt: Instant.nullable(),
    dropLifeSeconds: z.int().nullable(),
    thickness: z
      .object({ min: z.int(), max: z.int(), measured: z.int().nullable() })
      .nullable()
      .meta({ description: "Tenths of a millimetre" }),
    cures: z.array(CureView),
    neededJCm2: z
      .number()
      .nullable()
      .meta({ description: "The largest radiant exposure that the instructions ask for" }),
    light: z
      .object({
        distanceTenthMm: z.int(),
        irradianceMwCm2: z.int(),
        known: z.enum(["measured", "between", "estimate"]),
        neededJCm2: z.number(),
        givenJCm2: z.number(),
        enoughSeconds: z.int().nullable(),
      })
      .nullable()
      .meta({ description: "What the operatory's light would give as planned" }),
  })
  .meta({ id: "PlannedStep" });
export type PlannedStep = z.infer<typeof PlannedStep>;

const Version = z.object({
  id: Id,
  version: z.int(),
  state: z.enum(recordStates),
  amends: z.enum(amendments).nullable(),
  reason: z.string().nullable(),
  signed: z.object({ by: z.string(), at: Instant }).nullable(),
});

export const PaperQuery = z.strictObject({
  language: z
    .enum(["en", "de"])
    .optional()
    .meta({ description: "The practice's own where it is not said" }),
});
export type PaperQuery = z.infer<typeof PaperQuery>;

const LinkedRecord = z
  .object({
    id: Id.meta({ description: "Its newest signed version" }),
    signedAt: Instant,
    days: z.int().meta({ description: "Civil days from the sealing to the bonding" }),
  })
  .nullable();
export const RecordView = z
  .object({
    id: Id,
    trayId: Id,
    chartNumber: z.string(),
    tooth: z.string(),
    mode: z.enum(toothModes).nullable(),
    surfaces: z.string(),
    restoration: z.enum(restorationKinds).nullable(),
    visit: z.enum(["sealing", "bonding"]),
    technique: TechniqueView,
    state: z.enum(recordStates),
    version: z.int(),
    amends: z
      .enum(amendments)
      .nullable()
      .meta({ description: "How it follows the version before; null for the first" }),
    amendReason: z.string().nullable(),
    versions: z.array(Version).meta({ description: "Oldest first, this one among them" }),
    toldAt: Instant.nullable().meta({ description: "Where it was told later than it happened" }),
    startedAt: Instant,
    startedBy: z.string(),
    signed: z.object({ by: z.string(), at: Instant, hash: z.string() }).nullable(),
    seal: LinkedRecord.meta({ description: "At a bonding record, the seal it builds on" }),
    bonding: LinkedRecord.meta({ description: "At a sealing record, its signed bonding" }),
    startCheck: CheckView,
    passed: z.array(FindingView).meta({
      description: "Stops that came up during the work and that a dentist passed",
    }),
    check: CheckView.nullable().meta({
      description: "Recomputed now, while the record is a draft",
    }),
    steps: z.array(PlannedStep),
    materials: z.array(StepMaterialView),
    events: z.array(RecordEventView),
  })
  .meta({ id: "Record" });
export type RecordView = z.infer<typeof RecordView>;
export const StartedRecords = z
  .object({ records: z.array(RecordView) })
  .meta({ id: "StartedRecords", description: "One a tooth of the visit" });
export type StartedRecords = z.infer<typeof StartedRecords>;

export const RecordQuery = z.strictObject({
  chart: z.string().max(40).optional(),
  tooth: z.string().max(3).optional(),
  lot: z.string().max(40).optional(),
  on: CivilDate.optional(),
  limit: Page.limit,
  after: Id.optional(),
});
export type RecordQuery = z.infer<typeof RecordQuery>;
export const RecordLine = z
  .object({
    id: Id,
    chartNumber: z.string(),
    tooth: z.string(),
    techniqueName: z.string(),
    visit: z.enum(["sealing", "bonding"]),
    state: z.enum(recordStates),
    startedAt: Instant,
    signedAt: Instant.nullable(),
    materials: z.int(),
  })
  .meta({ id: "RecordLine" });
export const Records = z
  .object({ records: z.array(RecordLine), next: z.string().nullable() })
  .meta({ id: "Records" });
export type Records = z.infer<typeof Records>;
