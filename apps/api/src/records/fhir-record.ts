/**
 * A signed record as HL7 FHIR R4 (4.0.1): a collection with the procedure, what was used, the
 * patient by the chart number alone, the signer, and where it comes from. The same record gives the
 * same resources. What R4 has no element for (planned seconds, the check before priming, lights
 * and exposures) is left to the record itself.
 */
import { createHash } from "node:crypto";
import { describeTooth } from "#domain";
import type { RecordView } from "#contracts/records";
import { sayEvent, sayTooth, type Language } from "#texts";
import type { DeviceRow } from "./fhir.store.ts";

export interface FhirSource {
  record: RecordView;
  devices: readonly DeviceRow[];
  patientId: string;
  signerId: string;
  practice: string;
  language: Language;
}

interface Resource {
  resourceType: string;
  id: string;
  [element: string]: unknown;
}

const refTo = (id: string) => ({ reference: `urn:uuid:${id}` });

/** Gives the bundle; the record is signed. */
export function makeFhirBundle(source: FhirSource): object {
  const { record, patientId, signerId } = source;
  const scanned = record.materials.filter(({ lot }) => lot !== null);
  const resources: Resource[] = [
    procedureOf(source),
    ...scanned.map((material) => deviceOf(source, material)),
    {
      resourceType: "Patient",
      id: patientId,
      // Nothing else of the person leaves the practice.
      identifier: [{ type: { text: "chart number" }, value: record.chartNumber }],
    },
    { resourceType: "Practitioner", id: signerId, name: [{ text: record.signed?.by }] },
    provenanceOf(source),
  ];
  return {
    resourceType: "Bundle",
    id: record.id,
    type: "collection",
    timestamp: record.signed?.at,
    entry: resources.map((resource) => ({ fullUrl: `urn:uuid:${resource.id}`, resource })),
  };
}

/** A later version that corrects it, unlike one that adds to it, declares it wrong. */
const isDeclaredWrong = ({ versions, version }: RecordView): boolean =>
  versions.some((one) => one.version === version + 1 && one.amends === "correction");

function procedureOf({ record, patientId, signerId, language }: FhirSource): Resource {
  const { technique, startedAt, signed, materials, events } = record;
  const unscanned = materials.filter(({ lot }) => lot === null);
  const done = events
    .filter(({ kind }) => kind === "step-done")
    .map(({ occurredAt }) => occurredAt);
  const end = done.toSorted().at(-1) ?? signed?.at ?? startedAt;
  const used = materials.filter(({ lot }) => lot !== null).map(({ id }) => refTo(id));
  return {
    resourceType: "Procedure",
    id: record.id,
    identifier: [{ system: "urn:ietf:rfc:3986", value: `urn:uuid:${record.id}` }],
    status: isDeclaredWrong(record) ? "entered-in-error" : "completed",
    code: { text: `${technique.name}, version ${technique.version}` },
    subject: refTo(patientId),
    performedPeriod: { start: startedAt, end: end < startedAt ? startedAt : end },
    performer: [{ actor: refTo(signerId) }],
    bodySite: [bodySiteOf(record.tooth, language)],
    ...(used.length === 0 ? {} : { usedReference: used }),
    ...(unscanned.length === 0
      ? {}
      : {
          usedCode: unscanned.map(({ productName, notScannedReason }) => ({
            text: `${productName} (${notScannedReason ?? ""})`,
          })),
        }),
    ...notesOf(record, language),
  };
}

/**
 * HL7's code system of tooth numbers is FDI's, of permanent teeth only (ISO 3950 has the primary
 * ones as well): the others are told in words.
 */
function bodySiteOf(tooth: string, language: Language): object {
  const described = describeTooth(tooth);
  const name = described === null ? "" : sayTooth(language, described);
  const text = `${tooth} (FDI, ISO 3950), ${name}`;
  if (described?.dentition !== "permanent" || described.supernumerary) return { text };
  const system = "http://terminology.hl7.org/CodeSystem/ex-tooth";
  return { coding: [{ system, code: tooth }], text };
}

function notesOf({ events, steps }: RecordView, language: Language): object {
  const told = events.filter(({ kind }) => ["deviation", "note", "thickness"].includes(kind));
  if (told.length === 0) return {};
  const note = told.map((event) => {
    const step = steps.find(({ key }) => key === event.stepKey)?.name ?? "";
    const { title, details } = sayEvent(language, event, step);
    return { time: event.occurredAt, text: [title, ...details].join(" · ") };
  });
  return { note };
}

/** Who issues the identifiers of each scheme: R4, definition of Device.udiCarrier.issuer. */
const issuers: Record<string, string> = {
  "gs1-gtin": "http://hl7.org/fhir/NamingSystem/gs1-di",
  hibc: "http://hl7.org/fhir/NamingSystem/hibcc-dI",
};

function deviceOf({ devices }: FhirSource, material: RecordView["materials"][number]): Resource {
  const { id, productName, lot, useBy } = material;
  const device = devices.find((one) => one.id === id);
  const issuer = issuers[device?.scheme ?? ""];
  return {
    resourceType: "Device",
    id,
    ...(device?.identifier == null
      ? {}
      : {
          udiCarrier: [
            {
              deviceIdentifier: device.identifier,
              ...(issuer === undefined ? {} : { issuer }),
            },
          ],
        }),
    ...(device === undefined || device.labeler === "" ? {} : { manufacturer: device.labeler }),
    ...(useBy === null ? {} : { expirationDate: useBy }),
    lotNumber: lot,
    ...(device?.serial == null ? {} : { serialNumber: device.serial }),
    deviceName: [{ name: productName, type: "user-friendly-name" }],
  };
}

function provenanceOf({ record, signerId, practice }: FhirSource): Resource {
  const { signed, versions, version } = record;
  const before = versions.find((one) => one.version === version - 1);
  const operation = before === undefined ? "CREATE" : "UPDATE";
  return {
    resourceType: "Provenance",
    id: uuidFrom(record.id, "provenance"),
    target: [refTo(record.id)],
    recorded: signed?.at,
    activity: {
      coding: [
        { system: "http://terminology.hl7.org/CodeSystem/v3-DataOperation", code: operation },
      ],
      ...(record.amendReason === null ? {} : { text: record.amendReason }),
    },
    agent: [
      {
        type: {
          coding: [
            {
              system: "http://terminology.hl7.org/CodeSystem/provenance-participant-type",
              code: "author",
            },
          ],
        },
        who: refTo(signerId),
        onBehalfOf: { display: practice },
      },
    ],
    entity: [
      // The seal, as RFC 6920 names what has that SHA-256.
      {
        role: "source",
        what: { identifier: { system: "urn:ietf:rfc:3986", value: sealOf(signed?.hash ?? "") } },
      },
      ...(before === undefined
        ? []
        : [
            {
              role: "revision",
              what: {
                identifier: { system: "urn:ietf:rfc:3986", value: `urn:uuid:${before.id}` },
              },
            },
          ]),
    ],
  };
}

const sealOf = (hash: string): string =>
  `ni:///sha-256;${Buffer.from(hash, "hex").toString("base64url")}`;

/** A UUID of version 5 (RFC 9562, 5.5) of a name in the space of another UUID. */
export function uuidFrom(space: string, name: string): string {
  const digest = createHash("sha1")
    .update(Buffer.from(space.replaceAll("-", ""), "hex"))
    .update(name)
    .digest()
    .subarray(0, 16);
  digest[6] = (digest[6]! & 0x0f) | 0x50;
  digest[8] = (digest[8]! & 0x3f) | 0x80;
  return digest.toString("hex").replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-");
}
