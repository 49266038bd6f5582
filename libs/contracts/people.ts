/** Sign-in, people, tablets, places. */
import { z } from "zod";
import { locationKinds, roles, shelfKinds, toothNotations } from "#domain";
import { scannerBounds } from "#labels";
import { GsTokens, Id, Instant, Name, scannerText } from "./common.ts";

const SignInName = z
  .string()
  .trim()
  .toLowerCase()
  .regex(/^[a-z0-9][a-z0-9._-]{1,63}$/, "2 to 64 letters, digits, dots, dashes");
/** ASVS 5.0 6.2: at least 8 characters, at least 64 allowed, no composition rules. */
const NewPassword = z.string().min(8).max(128);
const Pin = z.string().regex(/^[0-9]{4,8}$/, "4 to 8 digits");
const TimeZone = z.string().min(1).max(64);
export const Role = z.enum(roles);

export const Health = z
  .object({
    status: z.literal("ok"),
    version: z.string(),
    database: z.string(),
    at: Instant,
    secureAddresses: z.array(z.url()).meta({
      description: "Where it is served over https, the surest first; none where it is not",
    }),
    trustPath: z.string().meta({ description: "The page that makes a device trust them" }),
  })
  .meta({ id: "Health" });
export type Health = z.infer<typeof Health>;

export const SetUpState = z
  .object({
    needed: z.boolean(),
    demonstration: z
      .boolean()
      .meta({ description: "A fictional practice with published passwords" }),
  })
  .meta({ id: "SetUpState" });
export type SetUpState = z.infer<typeof SetUpState>;
export const SetUp = z
  .strictObject({
    code: z.string().min(1).max(64),
    practiceName: Name,
    timeZone: TimeZone,
    language: z.enum(["en", "de"]).default("en"),
    displayName: Name,
    signInName: SignInName,
    password: NewPassword,
    alsoDentist: z.boolean().default(false).meta({ description: "The owner treats patients, too" }),
  })
  .meta({ id: "SetUp" });
export type SetUp = z.infer<typeof SetUp>;

export const SignIn = z
  .strictObject({ signInName: z.string().min(1).max(64), password: z.string().min(1).max(128) })
  .meta({ id: "SignIn" });
export type SignIn = z.infer<typeof SignIn>;
export const SwitchPerson = z.strictObject({ personId: Id, pin: Pin }).meta({ id: "SwitchPerson" });
export type SwitchPerson = z.infer<typeof SwitchPerson>;
export const SetPin = z
  .strictObject({ password: z.string().min(1).max(128), pin: Pin })
  .meta({ id: "SetPin" });
export type SetPin = z.infer<typeof SetPin>;

export const SessionView = z
  .object({
    person: z.object({
      id: Id,
      displayName: z.string(),
      roles: z.array(Role),
      hasPin: z.boolean(),
    }),
    practice: z.object({
      id: Id,
      name: z.string(),
      timeZone: z.string(),
      language: z.enum(["en", "de"]),
      toothNotation: z.enum(toothNotations),
      demonstration: z.boolean(),
    }),
    device: z.object({ id: Id, name: z.string() }).nullable(),
    expiresAt: Instant,
  })
  .meta({ id: "Session" });
export type SessionView = z.infer<typeof SessionView>;

export const DevicePeople = z
  .object({
    device: z.object({ id: Id, name: z.string() }).nullable(),
    people: z.array(z.object({ id: Id, displayName: z.string() })),
  })
  .meta({ id: "DevicePeople" });
export type DevicePeople = z.infer<typeof DevicePeople>;

export const PersonView = z
  .object({
    id: Id,
    displayName: z.string(),
    signInName: z.string(),
    roles: z.array(Role),
    active: z.boolean(),
    hasPin: z.boolean(),
  })
  .meta({ id: "Person" });
export type PersonView = z.infer<typeof PersonView>;
export const People = z.object({ people: z.array(PersonView) }).meta({ id: "People" });
export type People = z.infer<typeof People>;
export const AddPerson = z
  .strictObject({
    displayName: Name,
    signInName: SignInName,
    password: NewPassword,
    roles: z.array(Role).min(1).max(4),
  })
  .meta({ id: "AddPerson" });
export type AddPerson = z.infer<typeof AddPerson>;

export const DeviceView = z
  .object({
    id: Id,
    name: z.string(),
    registeredAt: Instant,
    revoked: z.boolean(),
    scannerSetUpAt: Instant.nullable(),
  })
  .meta({ id: "Device" });
export type DeviceView = z.infer<typeof DeviceView>;
export const Devices = z.object({ devices: z.array(DeviceView) }).meta({ id: "Devices" });
export type Devices = z.infer<typeof Devices>;
export const RegisterDevice = z
  .strictObject({ name: Name.max(100) })
  .meta({ id: "RegisterDevice" });
export type RegisterDevice = z.infer<typeof RegisterDevice>;

/** How the scanner of a device is understood; the words are those of `libs/labels`. */
export const ScannerProfile = z
  .strictObject({
    gsTokens: GsTokens,
    prefix: scannerText(20),
    suffix: scannerText(20),
    keyboard: z.enum(["as-typed", "by-position"]),
    endKey: z.enum(["Enter", "Tab", "either", "none"]),
    maxGapMs: z.int().min(scannerBounds.maxGapMs.min).max(scannerBounds.maxGapMs.max),
    minKeys: z.int().min(scannerBounds.minKeys.min).max(scannerBounds.minKeys.max),
  })
  .meta({ id: "ScannerProfile" });
export type ScannerProfile = z.infer<typeof ScannerProfile>;
export const SaveScannerProfile = z
  .strictObject({
    profile: ScannerProfile,
    setUpAt: Instant.nullable().meta({ description: "When the set-up symbols were scanned" }),
  })
  .meta({ id: "SaveScannerProfile" });
export type SaveScannerProfile = z.infer<typeof SaveScannerProfile>;
export const ScannerOfDevice = z
  .object({
    device: z.object({ id: Id, name: z.string() }).nullable(),
    profile: ScannerProfile.nullable(),
    setUpAt: Instant.nullable(),
  })
  .meta({ id: "ScannerOfDevice" });
export type ScannerOfDevice = z.infer<typeof ScannerOfDevice>;

export const LocationView = z
  .object({ id: Id, name: z.string(), kind: z.enum(locationKinds), outside: z.boolean() })
  .meta({ id: "Location" });
export type LocationView = z.infer<typeof LocationView>;
export const Locations = z.object({ locations: z.array(LocationView) }).meta({ id: "Locations" });
export type Locations = z.infer<typeof Locations>;
export const AddLocation = z
  .strictObject({ name: Name.max(100), kind: z.enum(shelfKinds) })
  .meta({ id: "AddLocation" });
export type AddLocation = z.infer<typeof AddLocation>;

export const Done = z.object({ done: z.literal(true) }).meta({ id: "Done" });
export type Done = z.infer<typeof Done>;

export const ToothNotationSetting = z
  .strictObject({ toothNotation: z.enum(toothNotations) })
  .meta({ id: "ToothNotation", description: "How teeth are shown; sent and stored is always FDI" });
export type ToothNotationSetting = z.infer<typeof ToothNotationSetting>;
