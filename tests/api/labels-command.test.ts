/** `tubule labels` as a person runs it, on the database that a server is using. */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import { ownElement, showOwnCode } from "#domain";
import { encodeElementString } from "#labels";
import { endEverything, runProgram } from "../crash/server-process.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";
import { pictureOfPng, readWithWasm, renderPdf } from "../helpers/read-back.ts";

let it: TestApp;
let make: Maker;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "tubule-labels-"));
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(async () => {
  await it.close();
  await rm(folder, { recursive: true, force: true });
  await endEverything();
});

const tubule = (...words: string[]) =>
  runProgram(["labels", ...words], { DATABASE_URL: it.database.ownerUrl });
const scanOf = (code: string) => `]d2${encodeElementString([ownElement(code)])}`;
const codesOn = async (out: string) => {
  const pages = await renderPdf(await readFile(out), 300);
  return (await Promise.all(pages.map(({ picture }) => readWithWasm(picture)))).flat();
};

test("a container's label comes as PNG, and its making is on record", async () => {
  const { first } = await make.received(await make.usualProduct("primer"));
  const out = path.join(folder, "one.png");
  const words = ["--container", showOwnCode(first.code), "--format", "png", "--out", out];
  expect(await tubule(...words)).toMatchObject({ code: 0, out: `1 label in ${out}`, err: "" });
  expect(await readWithWasm(pictureOfPng(await readFile(out)))).toEqual([scanOf(first.code)]);
  const { entries } = (await it.practice.office.call("listAudit", { query: { limit: 1 } })).ok;
  expect(entries[0]!.action).toBe("labels-made");
}, 120_000);

test("a whole delivery comes on a sheet, with copies, from the label that is left", async () => {
  const { office, assistant } = it.practice;
  const { id } = (await office.call("openDelivery", { body: { supplier: "a supplier" } })).ok;
  const product = await make.usualProduct("flowable");
  const { label } = await make.received(product);
  const body = { barcodes: [label], locationId: make.places.store, quantity: 2 };
  const { containers } = (await assistant.call("receive", { params: { deliveryId: id }, body })).ok;
  const out = path.join(folder, "sheet.pdf");
  const sheet = ["--format", "sheet", "--sheet", "a4-3x8", "--start-at", "22", "--copies", "2"];
  expect(await tubule("--delivery", id, ...sheet, "--out", out)).toMatchObject({
    code: 0,
    out: `4 labels in ${out}`,
  });
  const pages = await renderPdf(await readFile(out), 300);
  expect(pages.length).toBe(2);
  const codes = await codesOn(out);
  expect(codes.sort()).toEqual(
    containers.flatMap(({ code }) => [scanOf(code), scanOf(code)]).sort(),
  );
}, 120_000);

test("a place is named as people name it, a tray by its id, each a page of a roll", async () => {
  const tray = await make.tray();
  const { locations } = (await it.practice.office.call("listLocations")).ok;
  const { name } = locations.find(({ kind }) => kind === "refrigerator")!;
  const out = path.join(folder, "roll.pdf");
  const words = ["--location", name.toUpperCase(), "--tray", tray.id, "--size", "place"];
  const { code } = await tubule(...words, "--format", "roll", "--out", out);
  expect(code).toBe(0);
  const read = await codesOn(out);
  expect(read.map((text) => text.slice(3, 6))).toEqual(["92L", "93T"]);
}, 120_000);

test("what cannot be is refused in words, with exit code 2 and no file", async () => {
  const { first } = await make.received(await make.usualProduct("primer"));
  const out = path.join(folder, "none.pdf");
  const png = ["--format", "png", "--out", out];
  const cases: [string[], RegExp][] = [
    [[...png], /Say what labels are for/],
    [["--container", "CAAAAAA", ...png], /the code of no container here/],
    [["--delivery", "x", ...png], /no such delivery/],
    [["--container", first.code, "--format", "sheet", "--out", out], /--sheet with one of/],
    [["--container", first.code, "--format", "png", "--out", folder], /cannot be written/],
    [["--container", first.code, first.code, ...png], /holds one label/],
  ];
  for (const [words, sentence] of cases) {
    const { code, out: said, err } = await tubule(...words);
    expect([words, code, said, err]).toEqual([words, 2, "", expect.stringMatching(sentence)]);
    expect(err).not.toMatch(/\bat \w+ \(/);
  }
  await expect(readFile(out)).rejects.toThrow("ENOENT");
}, 240_000);
