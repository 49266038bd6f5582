import { afterAll, afterEach, beforeAll, describe, expect, test } from "@jest/globals";
import pg from "pg";
import type { Socket } from "node:net";
import { ready } from "zpl-renderer-js";
import { encodeElementString } from "#labels";
import { ownElement } from "#domain";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { openPrinter, type FakePrinter } from "../helpers/printer.ts";
import { pictureOfPng, readWithWasm } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
let behind: pg.Client;
const opened: FakePrinter[] = [];
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  behind = new pg.Client({ connectionString: it.database.ownerUrl });
  await behind.connect();
});
afterEach(async () => {
  for (const printer of opened.splice(0)) await printer.close();
});
afterAll(async () => {
  await behind.end();
  await it.close();
});

async function listening(meet?: (socket: Socket, received: string[]) => void) {
  const printer = await openPrinter(meet);
  opened.push(printer);
  return printer;
}
const inputAt = (port: number, more: Partial<BodyOf<"addPrinter">> = {}) => ({
  name: make.name("Printer"),
  host: "127.0.0.1",
  port,
  dotsPerInch: "203" as const,
  labelWidthUm: 45_000,
  labelHeightUm: 20_000,
  ...more,
});
const addedAt = async (port: number, more: Partial<BodyOf<"addPrinter">> = {}) =>
  (await it.practice.office.call("addPrinter", { body: inputAt(port, more) })).ok;

async function runOf(count: number, copies = 1) {
  const product = await make.usualProduct("primer");
  const { containers } = await make.received(product, { quantity: count });
  const subjects = containers.map(({ id }) => ({ kind: "container" as const, id }));
  const body = { subjects, copies };
  return (await it.practice.assistant.call("makeLabels", { body })).ok;
}
const print = (printerId: string, runId: string, more: { from?: number; key?: string } = {}) => {
  const { from = 1, key = newId() } = more;
  const given = { params: { printerId }, body: { runId, from }, key };
  return it.practice.assistant.call("printRun", given);
};

/** What a printer would burn of everything that it was sent. */
async function burnt({ received }: FakePrinter): Promise<string[]> {
  const { api } = await ready;
  const images = await api.zplToBase64MultipleAsync(received.join(""), 45, 20, 8);
  const read = await Promise.all(
    images.map((each) => readWithWasm(pictureOfPng(Buffer.from(each, "base64")))),
  );
  return read.flat();
}
const scanOf = (code: string) => `]d2${encodeElementString([ownElement(code)])}`;
const detailOf = ({ body }: { body: unknown }) => (body as { detail: string }).detail;

async function outcomesOf(runId: string) {
  const { rows } = await behind.query<{ outcome: string | null; first: number; labels: number }>(
    `select o.outcome, p.first_label as first, p.labels from label_print p
     left join label_print_outcome o on o.print_id = p.id
     where p.run_id = $1 order by p.asked_at, p.id`,
    [runId],
  );
  return rows;
}

describe("a printer", () => {
  test("is added, corrected, listed and removed", async () => {
    const { office } = it.practice;
    const { id } = await addedAt(9100);
    const params = { printerId: id };
    const body = inputAt(9101, { host: "label-printer.practice.example", dotsPerInch: "300" });
    expect((await office.call("changePrinter", { params, body })).ok).toEqual({ id, ...body });
    const { printers } = (await it.practice.dentist.call("listPrinters")).ok;
    expect(printers).toContainEqual({ id, ...body });
    await office.call("removePrinter", { params });
    expect((await office.call("removePrinter", { params })).problem).toBe("not-found");
    expect((await office.call("changePrinter", { params, body })).problem).toBe("not-found");
    expect((await it.practice.assistant.call("testPrinter", { params })).problem).toBe("not-found");
  });

  test("needs a name of its own, and an address without anything odd in it", async () => {
    const body = inputAt(9100);
    await it.practice.office.call("addPrinter", { body });
    expect((await it.practice.office.call("addPrinter", { body })).problem).toBe("name-taken");
    for (const host of ["a b", "http://printer", "-printer", "printer/", ""]) {
      const odd = { body: inputAt(9100, { host }) };
      expect((await it.practice.office.call("addPrinter", odd)).problem).toBe("invalid-request");
    }
  });

  test("is tried with a label that has a ruler, and a symbol that names nothing", async () => {
    const printer = await listening();
    const { id, name } = await addedAt(printer.port);
    const answer = await it.practice.assistant.call("testPrinter", { params: { printerId: id } });
    expect([answer.status, answer.ok]).toEqual([200, { printer: name, labels: 1 }]);
    expect(await burnt(printer)).toEqual(["]d299TEST"]);
  });

  test("whose label is too small for the test says so", async () => {
    const { id } = await addedAt(9100, { labelHeightUm: 8_000 });
    const answer = await it.practice.assistant.call("testPrinter", { params: { printerId: id } });
    expect(answer.problem).toBe("label-too-small");
  });
});

describe("a run that is printed", () => {
  test("reaches the printer whole, label by label, and is in the audit trail", async () => {
    const printer = await listening();
    const { id, name } = await addedAt(printer.port);
    const run = await runOf(3);
    const answer = await print(id, run.id);
    expect([answer.status, answer.ok]).toEqual([201, { printer: name, labels: 3 }]);
    expect(await burnt(printer)).toEqual(run.labels.map(({ code }) => scanOf(code)));
    expect(await outcomesOf(run.id)).toEqual([{ outcome: "sent", first: 1, labels: 3 }]);
    const { rows } = await behind.query<{ action: string }>(
      "select action from audit_entry order by sequence desc limit 2",
    );
    expect(rows.map(({ action }) => action)).toEqual(["labels-print-outcome", "labels-sent"]);
  });

  test("goes on from the first label that is missing, copies counted", async () => {
    const printer = await listening();
    const { id } = await addedAt(printer.port);
    const run = await runOf(3, 2);
    expect((await print(id, run.id, { from: 4 })).ok.labels).toBe(3);
    const counts = [...printer.received.join("").matchAll(/\^PQ(\d+)/g)].map(([, n]) => n);
    expect(counts).toEqual(["1", "2"]);
    expect((await print(id, run.id, { from: 7 })).problem).toBe("nothing-to-print");
  });

  test("is printed once, however often the same request comes, one after another or at once", async () => {
    const printer = await listening();
    const { id } = await addedAt(printer.port);
    const run = await runOf(2);
    const key = newId();
    const first = await print(id, run.id, { key });
    const again = await print(id, run.id, { key });
    expect([again.status, again.ok]).toEqual([first.status, first.ok]);
    const together = newId();
    const answers = await Promise.all(
      Array.from({ length: 5 }, () => print(id, run.id, { key: together })),
    );
    for (const answer of answers) {
      // Whoever comes while the labels are on their way is told so.
      expect(answer.status === 201 || answer.problem === "request-in-progress").toBe(true);
    }
    expect(answers.filter(({ status }) => status === 201).length).toBeGreaterThan(0);
    expect(printer.received.length).toBe(2);
    expect((await outcomesOf(run.id)).length).toBe(2);
  });

  test("is not sent again by a key that met a printer switched off; a new key does", async () => {
    const printer = await listening();
    const { port } = printer;
    await printer.close();
    opened.splice(0);
    const { id } = await addedAt(port);
    const run = await runOf(1);
    const key = newId();
    const refused = await print(id, run.id, { key });
    expect([refused.status, refused.problem]).toEqual([502, "printer-unreachable"]);
    expect(detailOf(refused)).toMatch(/takes no labels at that port.*Nothing was printed/);
    const again = await print(id, run.id, { key });
    expect([again.status, detailOf(again)]).toEqual([502, detailOf(refused)]);
    expect(await outcomesOf(run.id)).toEqual([{ outcome: "unreachable", first: 1, labels: 1 }]);
    const ready = await listening();
    const body = inputAt(ready.port);
    await it.practice.office.call("changePrinter", { params: { printerId: id }, body });
    expect((await print(id, run.id)).status).toBe(201);
    expect(await burnt(ready)).toEqual([scanOf(run.labels[0]!.code)]);
  });

  test("to a printer whose name nobody knows says what to enter instead", async () => {
    const { id } = await addedAt(9100, { host: "printer.invalid" });
    const refused = await print(id, (await runOf(1)).id);
    expect([refused.problem, detailOf(refused)]).toEqual([
      "printer-unreachable",
      expect.stringContaining("Enter the printer's address"),
    ]);
  });

  test("to a printer that hangs up leaves open what came out, and says so each time", async () => {
    const printer = await listening((socket) => {
      socket.once("data", () => socket.resetAndDestroy());
    });
    const { id } = await addedAt(printer.port);
    const run = await runOf(60);
    const key = newId();
    const broken = await print(id, run.id, { key });
    expect([broken.status, broken.problem]).toEqual([502, "print-outcome-unknown"]);
    expect((await print(id, run.id, { key })).problem).toBe("print-outcome-unknown");
    expect(await outcomesOf(run.id)).toEqual([{ outcome: "broken-off", first: 1, labels: 60 }]);
  });

  test("while the server stopped is never printed again by its key, nor called printed", async () => {
    const printer = await listening();
    const { id } = await addedAt(printer.port);
    const run = await runOf(1);
    const key = newId();
    await print(id, run.id, { key });
    // As if the server had stopped between sending and writing down how it went.
    await behind.query("alter table label_print_outcome disable trigger user");
    await behind.query("delete from label_print_outcome");
    await behind.query("alter table label_print_outcome enable trigger user");
    expect((await print(id, run.id, { key })).problem).toBe("request-in-progress");
    it.clock.set("2026-06-15T08:05:00.000Z");
    expect((await print(id, run.id, { key })).problem).toBe("print-outcome-unknown");
    it.clock.set("2026-06-15T08:00:00.000Z");
    expect(printer.received.length).toBe(1);
  });

  test("on labels that are too small is refused before anything is sent", async () => {
    const printer = await listening();
    const { id } = await addedAt(printer.port, { labelWidthUm: 12_000, labelHeightUm: 5_000 });
    const run = await runOf(1);
    expect((await print(id, run.id)).problem).toBe("label-too-small");
    expect([printer.received, await outcomesOf(run.id)]).toEqual([[], []]);
  });

  test("needs a run and a printer of this practice", async () => {
    const { id } = await addedAt(9100);
    const run = await runOf(1);
    expect((await print(newId(), run.id)).problem).toBe("not-found");
    expect((await print(id, newId())).problem).toBe("not-found");
  });
});
