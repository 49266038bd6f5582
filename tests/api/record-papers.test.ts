/** Records on paper: read back by PDFium, and looked at as an archive would. */
import { inflateSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { readPdfText, renderPdf } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
let signed: AnswerOf<"signRecord">;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  const set = await make.sealingSet();
  const tray = await make.fullTray(set, { tooth: "16" });
  const record = await make.started(tray.id);
  await make.worked(record);
  const [step] = record.steps;
  await write(record.id, { kind: "deviation", stepKey: step!.key, what: "saliva", text: "wiped" });
  const cure = { kind: "cure" as const, stepKey: "coat", seconds: 20, lightId: null };
  await write(record.id, cure);
  signed = await make.signed(record.id);
});
afterAll(() => it.close());

async function write(recordId: string, body: BodyOf<"addRecordEvent">): Promise<void> {
  const given = { params: { recordId }, body };
  expect((await it.practice.assistant.call("addRecordEvent", given)).status).toBe(201);
}

const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());
const fetchPdf = async (
  name: "getRecordDocument" | "getMaterialCard",
  { recordId = signed.id, language = "en" as "en" | "de" } = {},
) => {
  const given = { params: { recordId }, query: { language } };
  return bytesOf((await it.practice.office.call(name, given)).ok as unknown as Blob);
};

describe("a record on paper", () => {
  test("says all that its signature stands for", async () => {
    const text = await readPdfText(await fetchPdf("getRecordDocument"));
    expect(text).toContain("Sealing record");
    expect(text).toContain("16, upper right first molar");
    expect(text).toContain(signed.chartNumber);
    expect(text.replaceAll(" ", "")).toContain(signed.signed!.hash);
    expect(text).toContain("did, or supervised, what this record says");
    for (const { productName, lot } of signed.materials) {
      expect(text).toContain(`${productName}, lot ${lot}`);
    }
    expect(text).toMatch(/Saliva · wiped/);
    expect(text).toMatch(/Light-cured for 20 s · a light not on the list · 0 mm away/);
    expect(text).toMatch(/does not replace the manufacturer's instructions for use/);
    expect(text).toMatch(/page 1 of \d/);
  });

  test("tells what happened in its order, with the day where it is another one", async () => {
    const { trayId } = await make.smallTray();
    const { body } = await make.starting(trayId);
    const told = { ...body, happenedAt: "2026-06-13T08:00:00.000Z" };
    const started = await it.practice.dentist.call("startRecord", {
      params: { trayId },
      body: told,
    });
    const [draft] = started.ok.records;
    await make.worked(draft!);
    const occurredAt = "2026-06-13T08:05:00.000Z";
    await write(draft!.id, { kind: "deviation", stepKey: "cement", what: "saliva", occurredAt });
    const text = await readPdfText(await fetchPdf("getRecordDocument", { recordId: draft!.id }));
    const [, happened] = text.split("As it happened ");
    expect(happened).toMatch(/^\d\d:05 · .*: saliva .* 15 Jun 2026, \d\d:00 · .*: begun/);
  });

  test("is as good in German", async () => {
    const text = await readPdfText(await fetchPdf("getRecordDocument", { language: "de" }));
    expect(text).toContain("Dokumentation der Versiegelung");
    expect(text).toContain("oben rechts");
    expect(text).toMatch(/Seite 1 von \d/);
    expect(text).not.toMatch(/\{\w+\}|undefined|null/);
  });

  test("says on its head that it is a draft", async () => {
    const small = await make.smallTray();
    const draft = await make.started(small.trayId);
    const text = await readPdfText(await fetchPdf("getRecordDocument", { recordId: draft.id }));
    expect(text).toMatch(/^Bonding record Draft: not signed/);
    expect(text).toContain("not done");
  });

  test("is not found in another practice", async () => {
    const other = await it.addPractice("other");
    const given = { params: { recordId: signed.id }, query: {} };
    for (const name of ["getRecordDocument", "getMaterialCard"] as const) {
      expect((await other.dentist.call(name, given)).problem).toBe("not-found");
    }
  });
});

describe("a patient's card", () => {
  test("names tooth, day and materials with lots, and no chart", async () => {
    const bytes = await fetchPdf("getMaterialCard");
    const text = await readPdfText(bytes);
    expect(text).toContain("Tooth 16 (FDI), upper right first molar");
    expect(text).toContain("15 June 2026 · Test practice");
    for (const { productName, lot } of signed.materials) {
      expect(text).toContain(productName);
      expect(text).toContain(`lot ${lot}`);
    }
    expect(text).not.toContain(signed.chartNumber);
    const [page] = await renderPdf(bytes, 40);
    // ISO 216: A6.
    expect([page!.widthMm, page!.heightMm].map(Math.round)).toEqual([105, 148]);
  });

  test("says that it is not signed yet", async () => {
    const draft = await make.started((await make.smallTray()).trayId);
    const text = await readPdfText(await fetchPdf("getMaterialCard", { recordId: draft.id }));
    expect(text).toContain("Not yet signed by the dentist.");
  });
});

// ISO 19005-2, level B: what can be seen without a full validator.
describe("an archive's PDF", () => {
  test.each(["getRecordDocument", "getMaterialCard"] as const)("is what %s gives", async (name) => {
    const bytes = Buffer.from(await fetchPdf(name));
    const source = bytes.toString("latin1");
    expect(source).toMatch(/^%PDF-1\.7/);
    // 6.6.4: the part and its level are told in the metadata.
    expect(source).toMatch(/<pdfaid:part>2<\/pdfaid:part>\s*<pdfaid:conformance>B</);
    // 6.2.3: colours by an output intent with a profile in it.
    expect(source).toMatch(/\/S \/GTS_PDFA1/);
    expect(source).toMatch(/\/DestOutputProfile \d+ 0 R/);
    // 6.2.11.4: every font program is embedded, none is one of the standard fourteen.
    const fonts = source.match(/\/Type \/FontDescriptor/g) ?? [];
    expect(fonts.length).toBeGreaterThan(0);
    expect(source.match(/\/FontFile2 \d+ 0 R/g)?.length).toBe(fonts.length);
    expect(source).not.toMatch(/\/Subtype \/Type1\b|\/Helvetica/);
    // 6.1.3 and 6.5: an identity in the trailer; no script, no encryption, no outside file.
    expect(source).toMatch(/\/ID \[/);
    expect(source).not.toMatch(/\/Encrypt|\/JavaScript|\/Launch|\/EmbeddedFile/);
    expect(profileOf(bytes).toString("latin1", 36, 40)).toBe("acsp");
  });
});

/** The colour profile inside: ISO 15076-1 has "acsp" at byte 36 of it. */
function profileOf(bytes: Buffer): Buffer {
  const source = bytes.toString("latin1");
  const number = /\/DestOutputProfile (\d+) 0 R/.exec(source)![1];
  const start = source.indexOf(`\n${number} 0 obj`);
  const from = source.indexOf("stream\n", start) + "stream\n".length;
  const packed = /\/Filter \/FlateDecode/.test(source.slice(start, from));
  const data = bytes.subarray(from, source.indexOf("endstream", from));
  return packed ? inflateSync(data) : data;
}
