/** Good requests for what has to do with labels on paper; a part of `every-operation.ts`. */
import type { labelOperations } from "#contracts/label-operations";
import type { Maker } from "../helpers/make.ts";
import { listeningPort } from "../helpers/printer.ts";
import type { Preparing } from "./every-operation.ts";

const received = async (make: Maker) => make.received(await make.usualProduct("bonding-cement"));

async function labelRun(make: Maker) {
  const { first } = await received(make);
  const body = { subjects: [{ kind: "container" as const, id: first.id }] };
  return (await make.practice.office.call("makeLabels", { body })).ok;
}

const sheetInput = (make: Maker) => ({
  name: make.name("Sheet"),
  pageWidthUm: 210_000,
  pageHeightUm: 297_000,
  columns: 2,
  rows: 5,
  labelWidthUm: 90_000,
  labelHeightUm: 50_000,
  marginLeftUm: 10_000,
  marginTopUm: 10_000,
  pitchXUm: 95_000,
  pitchYUm: 55_000,
});
const ownSheet = async (make: Maker) =>
  (await make.practice.office.call("addSheet", { body: sheetInput(make) })).ok;

const printerInput = async (make: Maker) => ({
  name: make.name("Printer"),
  host: "127.0.0.1",
  port: await listeningPort(),
  dotsPerInch: "203" as const,
  labelWidthUm: 45_000,
  labelHeightUm: 20_000,
});
const printer = async (make: Maker) =>
  (await make.practice.office.call("addPrinter", { body: await printerInput(make) })).ok;

export const labelRequests: Pick<Preparing, keyof typeof labelOperations> = {
  makeLabels: async (make) => {
    const { first } = await received(make);
    const subjects = [{ kind: "container" as const, id: first.id }];
    return { body: { subjects, copies: 2, reprintOf: (await labelRun(make)).id } };
  },
  listLabelRuns: async () => ({}),
  getLabelRun: async (make) => ({ params: { runId: (await labelRun(make)).id } }),
  getLabelDocument: async (make) => ({
    params: { runId: (await labelRun(make)).id },
    query: {
      format: "sheet",
      size: "bottle",
      sheet: (await ownSheet(make)).id,
      startAt: 2,
      from: 1,
      dotsPerInch: "300",
    },
  }),
  previewLabel: async (make) => {
    const { first } = await received(make);
    return { query: { kind: "container", id: first.id, size: "syringe" } };
  },
  listSheets: async () => ({}),
  addSheet: async (make) => ({ body: sheetInput(make) }),
  changeSheet: async (make) => ({
    params: { sheetId: (await ownSheet(make)).id },
    body: sheetInput(make),
  }),
  removeSheet: async (make) => ({ params: { sheetId: (await ownSheet(make)).id } }),
  getSheetTest: async (make) => ({ query: { sheet: (await ownSheet(make)).id } }),
  listPrinters: async () => ({}),
  addPrinter: async (make) => ({ body: await printerInput(make) }),
  changePrinter: async (make) => ({
    params: { printerId: (await printer(make)).id },
    body: await printerInput(make),
  }),
  removePrinter: async (make) => ({ params: { printerId: (await printer(make)).id } }),
  testPrinter: async (make) => ({ params: { printerId: (await printer(make)).id } }),
  printRun: async (make) => ({
    params: { printerId: (await printer(make)).id },
    body: { runId: (await labelRun(make)).id, from: 1 },
  }),
  getScannerSheet: async () => ({ query: { symbol: "gs1" } }),
};
