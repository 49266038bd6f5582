/**
 * A record as HL7 FHIR R4, held against the published definitions (structures and value sets of
 * 4.0.1) as the package `fhir` carries them.
 */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { Fhir } from "fhir";
import type { AnswerOf } from "#contracts/operations";
import { uuidFrom } from "../../apps/api/src/records/fhir-record.ts";
import { openApp, password, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

const published = new Fhir();

let it: TestApp;
let make: Maker;
let signed: AnswerOf<"signRecord">;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  signed = await newSigned("16");
});
afterAll(() => it.close());

async function newSigned(tooth: string): Promise<AnswerOf<"signRecord">> {
  const set = await make.sealingSet({ primer: { labeler: "Labeler (fictional)" } });
  const tray = await make.fullTray(set, { tooth });
  const record = await make.started(tray.id);
  await make.worked(record);
  const params = { recordId: record.id };
  const body = { kind: "deviation", stepKey: "prime", what: "saliva", text: "wiped" } as const;
  await it.practice.assistant.call("addRecordEvent", { params, body });
  return make.signed(record.id);
}

type Resource = Record<string, unknown> & { resourceType: string; id: string };
interface Bundle extends Resource {
  entry: { fullUrl: string; resource: Resource }[];
}
const ask = (recordId: string) =>
  it.practice.office.call("getRecordFhir", { params: { recordId }, query: { language: "en" } });
async function exportOf(recordId: string): Promise<Bundle> {
  const { ok } = await ask(recordId);
  return JSON.parse(await (ok as unknown as Blob).text()) as Bundle;
}
const ofType = ({ entry }: Bundle, type: string) =>
  entry.map(({ resource }) => resource).filter(({ resourceType }) => resourceType === type);

/**
 * What the definitions say against a bundle and each of its resources. The body site is bound to
 * codes of SNOMED CT as an example only, and the package does not carry those.
 */
function faultsOf(bundle: Bundle): string[] {
  return [bundle, ...bundle.entry.map(({ resource }) => resource)].flatMap((resource) =>
    published
      .validate(resource)
      .messages.filter(({ location }) => location !== "Procedure.bodySite[0]")
      .map(({ location, message }) => `${location}: ${message}`),
  );
}

describe("a record in FHIR R4", () => {
  test("has nothing that the published definitions do not know, or lack", async () => {
    expect(faultsOf(await exportOf(signed.id))).toEqual([]);
  });

  // Otherwise the test above could not fail.
  test("is refused by them where something is wrong", async () => {
    const bundle = await exportOf(signed.id);
    const [procedure] = ofType(bundle, "Procedure");
    expect(published.validate({ ...procedure, status: "done" }).valid).toBe(false);
    const { subject: _left, ...nobodys } = procedure!;
    expect(published.validate(nobodys).valid).toBe(false);
    const { messages } = published.validate({ ...procedure, tooth: "16" });
    expect(messages.map(({ location }) => location)).toContain("Procedure.tooth");
  });

  test("says what was done to which tooth, by whom and when", async () => {
    const bundle = await exportOf(signed.id);
    const [procedure] = ofType(bundle, "Procedure");
    expect(procedure).toMatchObject({
      id: signed.id,
      status: "completed",
      bodySite: [
        {
          coding: [{ system: "http://terminology.hl7.org/CodeSystem/ex-tooth", code: "16" }],
          text: "16 (FDI, ISO 3950), upper right first molar",
        },
      ],
      performedPeriod: { start: signed.startedAt },
      note: [{ text: "Prime: saliva · wiped" }],
    });
    const [practitioner] = ofType(bundle, "Practitioner");
    expect(practitioner).toMatchObject({ name: [{ text: "dentist" }] });
    const [patient] = ofType(bundle, "Patient");
    expect(patient).toEqual({
      resourceType: "Patient",
      id: patient!.id,
      identifier: [{ type: { text: "chart number" }, value: signed.chartNumber }],
    });
  });

  test("names every material as a device with its identifier, lot and last day", async () => {
    const bundle = await exportOf(signed.id);
    const devices = ofType(bundle, "Device");
    expect(devices.map((device) => device["lotNumber"])).toEqual(
      signed.materials.map(({ lot }) => lot),
    );
    const [primer] = devices;
    expect(primer).toMatchObject({
      udiCarrier: [
        {
          deviceIdentifier: expect.stringMatching(/^0952\d{10}$/),
          issuer: "http://hl7.org/fhir/NamingSystem/gs1-di",
        },
      ],
      manufacturer: "Labeler (fictional)",
      expirationDate: "2028-03-31",
    });
    const used = ofType(bundle, "Procedure")[0]!["usedReference"];
    expect(used).toEqual(devices.map(({ id }) => ({ reference: `urn:uuid:${id}` })));
  });

  test("points only at what is in it, and is the same each time", async () => {
    const bundle = await exportOf(signed.id);
    const known = new Set(bundle.entry.map(({ fullUrl }) => fullUrl));
    expect(known.size).toBe(bundle.entry.length);
    const asked = [...JSON.stringify(bundle).matchAll(/"reference":"([^"]+)"/g)];
    expect(asked.length).toBeGreaterThan(4);
    for (const [, reference] of asked) expect(known).toContain(reference);
    expect(await exportOf(signed.id)).toEqual(bundle);
  });

  test("carries the seal, and what it revises", async () => {
    const add = [{ kind: "note" as const, text: "no pain" }];
    const body = { amends: "addition" as const, reason: "Told by phone.", add, password };
    const given = { params: { recordId: signed.id }, body };
    const { ok: second } = await it.practice.dentist.call("amendRecord", given);
    const bundle = await exportOf(second.id);
    expect(faultsOf(bundle)).toEqual([]);
    // RFC 6920, 3: ni:///sha-256; and the hash in base64url.
    const hash = Buffer.from(second.signed!.hash, "hex").toString("base64url");
    expect(ofType(bundle, "Provenance")[0]).toMatchObject({
      activity: { coding: [{ code: "UPDATE" }], text: "Told by phone." },
      entity: [
        { role: "source", what: { identifier: { value: `ni:///sha-256;${hash}` } } },
        { role: "revision", what: { identifier: { value: `urn:uuid:${signed.id}` } } },
      ],
    });
    const statusOf = async (id: string) => ofType(await exportOf(id), "Procedure")[0]?.["status"];
    expect(await statusOf(signed.id)).toBe("completed");
    const wrong = second.events.find(({ kind }) => kind === "deviation")!.sequence;
    const correction = { ...body, amends: "correction" as const, add: [] };
    await it.practice.dentist.call("amendRecord", {
      params: { recordId: second.id },
      body: { ...correction, leaveOut: { events: [wrong] } },
    });
    expect(await statusOf(second.id)).toBe("entered-in-error");
  });

  test("tells a primary tooth in words: the code system has permanent ones alone", async () => {
    const bundle = await exportOf((await newSigned("55")).id);
    expect(faultsOf(bundle)).toEqual([]);
    expect(ofType(bundle, "Procedure")[0]?.["bodySite"]).toEqual([
      { text: expect.stringMatching(/^55 \(FDI, ISO 3950\), upper right primary/) },
    ]);
  });

  test("is not made of a draft, nor for another practice", async () => {
    const draft = await make.started((await make.smallTray()).trayId);
    expect((await ask(draft.id)).problem).toBe("record-not-signed");
    const other = await it.addPractice("other");
    const given = { params: { recordId: signed.id }, query: {} };
    expect((await other.dentist.call("getRecordFhir", given)).problem).toBe("not-found");
  });
});

// RFC 9562, appendix A.4: version 5 of www.example.com in the space of DNS.
test("an id made of a name is that of the published example", () => {
  expect(uuidFrom("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com")).toBe(
    "2ed6657d-e927-568b-95e1-2665a8aea6a2",
  );
});
