import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import pg from "pg";
import { builtInSheets, ownElement, readOwnCode } from "#domain";
import { encodeElementString, scannerSetUpSymbols } from "#labels";
import type { QueryOf } from "#contracts/operations";
import type { LabelSubject } from "#contracts/label-printing";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { pictureOfPng, readWithWasm, renderPdf } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
let behind: pg.Client;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  behind = new pg.Client({ connectionString: it.database.ownerUrl });
  await behind.connect();
});
afterAll(async () => {
  await behind.end();
  await it.close();
});

const bytesOf = async (file: Blob) => new Uint8Array(await file.arrayBuffer());
const made = async (subjects: LabelSubject[], more: { copies?: number; reprintOf?: string } = {}) =>
  (await it.practice.assistant.call("makeLabels", { body: { subjects, ...more } })).ok;
const container = (id: string): LabelSubject => ({ kind: "container", id });
const received = async (told: Parameters<Maker["received"]>[1] = {}) =>
  make.received(await make.usualProduct("primer"), told);
const asked = (runId: string, query: QueryOf<"getLabelDocument">) =>
  it.practice.assistant.call("getLabelDocument", { params: { runId }, query });
const detailOf = ({ body }: { body: unknown }) => (body as { detail: string }).detail;
const scanOf = (code: string) => `]d2${encodeElementString([ownElement(code)])}`;

describe("a run of labels", () => {
  test("says what stands on each, in the order that was asked for", async () => {
    const { first, lot } = await received();
    const tray = await make.tray({ appointmentAt: "2026-06-15T07:00:00.000Z", tooth: "26" });
    const run = await made([
      { kind: "tray", id: tray.id },
      container(first.id),
      { kind: "location", id: make.places.refrigerator },
    ]);
    const [onTray, onBottle, onPlace] = run.labels;
    expect(onBottle).toMatchObject({
      subject: container(first.id),
      code: first.code,
      lot,
      useBy: { date: "2028-03-31", precision: "day" },
      openedOn: null,
      useUntil: null,
      line: "",
    });
    expect(onTray).toMatchObject({ title: `${tray.chartNumber}, tooth 26`, lot: null });
    // The clock of the practice, which is in Berlin.
    expect(onTray!.line).toMatch(/^2026-06-15 09:00, /);
    expect(onPlace).toMatchObject({ lot: null, useBy: null });
    expect([onTray, onPlace].map((label) => readOwnCode(label!.code)?.kind)).toEqual([
      "tray",
      "location",
    ]);
    const again = await it.practice.office.call("getLabelRun", { params: { runId: run.id } });
    expect(again.ok).toEqual(run);
    const { runs } = (await it.practice.dentist.call("listLabelRuns")).ok;
    expect(runs[0]).toMatchObject({ id: run.id, labels: 3, madeBy: "assistant", copies: 1 });
  });

  test("tells of an opened bottle until when it may be used", async () => {
    const { first } = await make.received(
      await make.product("primer", { inUseLife: { count: 30, unit: "day" } }),
    );
    const run = await made([container(first.id)]);
    await it.practice.assistant.call("openContainer", {
      params: { containerId: first.id },
      body: { on: "2026-06-15" },
    });
    const { labels } = (await it.practice.office.call("getLabelRun", { params: { runId: run.id } }))
      .ok;
    expect(labels[0]).toMatchObject({ openedOn: "2026-06-15", useUntil: "2026-07-15" });
  });

  test("gives a place its code once, however often and by however many it is labelled", async () => {
    const body = { name: make.name("Room"), kind: "operatory" as const };
    const place = (await it.practice.office.call("addLocation", { body })).ok;
    const subjects: LabelSubject[] = [{ kind: "location", id: place.id }];
    const runs = await Promise.all(Array.from({ length: 6 }, () => made(subjects)));
    const later = await made(subjects);
    const codes = new Set([...runs, later].map(({ labels }) => labels[0]!.code));
    expect(codes.size).toBe(1);
    const scan = { body: { barcodes: [scanOf([...codes][0]!)] } };
    expect((await it.practice.dentist.call("readScan", scan)).ok).toMatchObject({
      reading: { ok: true, scheme: "location" },
      place: { id: place.id, name: place.name, kind: "operatory" },
      tray: null,
      containers: [],
    });
  });

  test("made again names the run that was spoiled, and both are in the audit trail", async () => {
    const { first } = await received();
    const run = await made([container(first.id)], { copies: 2 });
    const again = await made([container(first.id)], { reprintOf: run.id });
    expect(again).toMatchObject({ reprintOf: run.id, copies: 1 });
    const { rows } = await behind.query<{ action: string; subject: string }>(
      "select action, subject from audit_entry where action like 'labels-%' order by sequence desc",
    );
    expect(rows.slice(0, 2)).toEqual([
      { action: "labels-made-again", subject: `label-run:${again.id}` },
      { action: "labels-made", subject: `label-run:${run.id}` },
    ]);
  });

  test.each(["container", "location", "tray"] as const)(
    "is not made for a %s that is not there",
    async (kind) => {
      const body = { subjects: [{ kind, id: newId() }] };
      const answer = await it.practice.assistant.call("makeLabels", { body });
      expect(answer.problem).toBe("not-found");
    },
  );

  test("is not made for a place outside the practice", async () => {
    const body = { subjects: [{ kind: "location" as const, id: make.places.discarded }] };
    expect((await it.practice.office.call("makeLabels", { body })).problem).toBe("not-found");
  });
});

describe("a symbol of ours", () => {
  test("is scanned like the code that is typed: into a tray, and for what it is", async () => {
    const { first } = await received();
    const scan = { body: { barcodes: [scanOf(first.code)] } };
    const { ok } = await it.practice.assistant.call("readScan", scan);
    expect(ok).toMatchObject({ reading: { scheme: "container" }, place: null, tray: null });
    expect(ok.containers.map(({ id }) => id)).toEqual([first.id]);
    const tray = await make.tray();
    const { item } = await make.scanned(tray.id, scanOf(first.code));
    expect(item.container?.id).toBe(first.id);
  });

  test("of a tray leads to the tray", async () => {
    const tray = await make.tray();
    const run = await made([{ kind: "tray", id: tray.id }]);
    const scan = { body: { barcodes: [scanOf(run.labels[0]!.code)] } };
    expect((await it.practice.dentist.call("readScan", scan)).ok.tray).toEqual({
      id: tray.id,
      chartNumber: tray.chartNumber,
      tooth: tray.teeth[0]?.tooth,
    });
  });

  test("of a place is no bottle for a tray, and no label for a delivery", async () => {
    const run = await made([{ kind: "location", id: make.places.store }]);
    const barcodes = [scanOf(run.labels[0]!.code)];
    const tray = await make.tray();
    const onTray = { params: { trayId: tray.id }, body: { barcodes } };
    expect((await it.practice.assistant.call("scanIntoTray", onTray)).problem).toBe(
      "label-unreadable",
    );
    const delivery = {
      params: { deliveryId: make.deliveryId },
      body: { barcodes, locationId: make.places.store },
    };
    expect((await it.practice.assistant.call("receive", delivery)).problem).toBe(
      "label-unreadable",
    );
  });
});

describe("a document", () => {
  test("comes in every format, each a file of its kind with the code in it", async () => {
    const { first } = await received();
    const { id } = await made([container(first.id)]);
    const pdf = await asked(id, { format: "roll" });
    const [page] = await renderPdf(await bytesOf(pdf.ok), 300);
    expect(await readWithWasm(page!.picture)).toEqual([scanOf(first.code)]);
    const png = await asked(id, { format: "png", size: "syringe" });
    const picture = pictureOfPng(await bytesOf(png.ok));
    expect(await readWithWasm(picture)).toEqual([scanOf(first.code)]);
    const svg = await asked(id, { format: "svg" });
    expect([svg.ok.type, await svg.ok.text()]).toEqual([
      "image/svg+xml",
      expect.stringContaining(first.code.slice(0, 3)),
    ]);
    const zpl = await asked(id, { format: "zpl" });
    expect([zpl.ok.type, await zpl.ok.text()]).toEqual([
      "text/plain",
      expect.stringMatching(/^\^XA/),
    ]);
  }, 20_000);

  test("is in the language of the practice", async () => {
    const { first } = await received();
    const { id } = await made([container(first.id)]);
    await behind.query("update practice set language = 'de'");
    const pdf = await asked(id, { format: "roll" });
    await behind.query("update practice set language = 'en'");
    const [page] = await renderPdf(await bytesOf(pdf.ok), 72);
    expect(page!.text.replaceAll(/\s+/g, " ")).toContain("Verwendbar bis 2028-03-31");
  });

  test("on a sheet of one's own begins at the first label that is left", async () => {
    const sheet = (
      await it.practice.office.call("addSheet", {
        body: {
          name: make.name("Sheet"),
          pageWidthUm: 100_000,
          pageHeightUm: 60_000,
          columns: 2,
          rows: 2,
          labelWidthUm: 45_000,
          labelHeightUm: 25_000,
          marginLeftUm: 2_000,
          marginTopUm: 2_000,
          pitchXUm: 47_000,
          pitchYUm: 27_000,
        },
      })
    ).ok;
    const { first } = await received();
    const { id } = await made([container(first.id)], { copies: 2 });
    const pdf = await asked(id, { format: "sheet", sheet: sheet.id, startAt: 4 });
    const pages = await renderPdf(await bytesOf(pdf.ok), 203);
    expect(pages.map(({ widthMm, heightMm }) => [widthMm, heightMm].map(Math.round))).toEqual([
      [100, 60],
      [100, 60],
    ]);
    const past = await asked(id, { format: "sheet", sheet: sheet.id, startAt: 5 });
    expect([past.problem, detailOf(past)]).toEqual([
      "invalid-request",
      expect.stringContaining("at most 4"),
    ]);
  });

  const refusals: [string, QueryOf<"getLabelDocument">][] = [
    ["invalid-request", { format: "sheet" }],
    ["not-found", { format: "sheet", sheet: "a4-9x9" }],
    ["not-found", { format: "sheet", sheet: newId() }],
    ["nothing-to-print", { format: "roll", from: 3 }],
  ];
  test.each(refusals)("is refused with %s when wished for %j", async (problem, query) => {
    const { first } = await received();
    const { id } = await made([container(first.id)], { copies: 2 });
    expect((await asked(id, query)).problem).toBe(problem);
  });

  test("is refused where the sheet's labels are too small for what must stand on them", async () => {
    const tiny = {
      ...builtInSheets[1]!,
      name: make.name("Tiny"),
      labelWidthUm: 12_000,
      labelHeightUm: 5_000,
    };
    const { id: _id, ...body } = tiny;
    const sheet = (await it.practice.office.call("addSheet", { body })).ok;
    const { first } = await received();
    const { id } = await made([container(first.id)]);
    const refused = await asked(id, { format: "sheet", sheet: sheet.id });
    expect([refused.problem, detailOf(refused)]).toEqual([
      "label-too-small",
      expect.stringContaining("12 × 5 mm"),
    ]);
  });
});

describe("a sheet", () => {
  const measures = () => {
    const { id: _id, ...geometry } = builtInSheets[0]!;
    return { ...geometry, name: make.name("Sheet") };
  };

  test("is added, corrected, listed before those built in, and removed", async () => {
    const { office } = it.practice;
    const { id, name } = (await office.call("addSheet", { body: measures() })).ok;
    const params = { sheetId: id };
    const body = { ...measures(), name, marginTopUm: 11_000 };
    expect((await office.call("changeSheet", { params, body })).ok).toMatchObject(body);
    const listed = (await office.call("listSheets")).ok.sheets;
    expect(listed.find((sheet) => sheet.id === id)).toEqual({ ...body, id, builtIn: false });
    expect(listed.slice(-builtInSheets.length).map((sheet) => sheet.id)).toEqual(
      builtInSheets.map((sheet) => sheet.id),
    );
    await office.call("removeSheet", { params });
    expect((await office.call("changeSheet", { params, body })).problem).toBe("not-found");
    expect((await office.call("removeSheet", { params })).problem).toBe("not-found");
  });

  test("needs a name of its own", async () => {
    const body = measures();
    await it.practice.office.call("addSheet", { body });
    expect((await it.practice.office.call("addSheet", { body })).problem).toBe("name-taken");
  });

  test.each([
    ["overlapping", { pitchXUm: 30_000 }],
    ["off-page", { marginLeftUm: 30_000 }],
    ["too-many", { rows: 100, columns: 6 }],
  ])("that is %s is refused, and says so", async (fault, change) => {
    const body = { ...measures(), ...change };
    const answer = await it.practice.office.call("addSheet", { body });
    expect([answer.problem, answer.body]).toEqual([
      "sheet-impossible",
      expect.objectContaining({ fault }),
    ]);
  });

  test.each(builtInSheets.map(({ id }) => id))("%s has a page to test it with", async (sheet) => {
    const file = await it.practice.dentist.call("getSheetTest", { query: { sheet } });
    const [page] = await renderPdf(await bytesOf(file.ok), 100);
    const { name, pageWidthUm } = builtInSheets.find(({ id }) => id === sheet)!;
    expect(page!.text.replaceAll(/\s+/g, " ")).toContain(`Alignment test: ${name}`);
    expect(Math.abs(page!.widthMm - pageWidthUm / 1000)).toBeLessThan(0.1);
    // The ruler across the page: a tick at each ten millimetres is dark, between two it is not.
    const { picture } = page!;
    const row = Math.round((6_000 + 2_700) / 254);
    const dark = (mm: number) =>
      [-1, 0, 1].some((dot) => {
        const x = Math.round((mm * 100) / 25.4) + dot;
        return picture.grey[row * picture.width + x]! < 200;
      });
    expect([20, 50, 100, 150].filter((mm) => !dark(mm))).toEqual([]);
  });
});

describe("the scanner sheet", () => {
  test("shows every set-up symbol, and each alone", async () => {
    const { assistant } = it.practice;
    const pdf = await assistant.call("getScannerSheet", { query: {} });
    const [page] = await renderPdf(await bytesOf(pdf.ok), 300);
    const read = (await readWithWasm(page!.picture)).map((text) => text.slice(3));
    expect(read.sort()).toEqual(scannerSetUpSymbols.map(({ text }) => text).sort());
    for (const { key } of scannerSetUpSymbols) {
      const svg = await assistant.call("getScannerSheet", { query: { symbol: key } });
      expect([key, svg.ok.type]).toEqual([key, "image/svg+xml"]);
    }
  });
});
