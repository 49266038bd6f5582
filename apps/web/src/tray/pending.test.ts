import { describe, expect, test } from "@jest/globals";
import { makeContainerCode, showContainerCode } from "#domain";
import type { OutboxEntry } from "../outbox/entry.ts";
import { listRemoved, nameScan, readPending, type KnownStock } from "./pending.ts";

const code = makeContainerCode(7);
const stock = {
  containers: [
    {
      code,
      product: { id: "p", name: "Alder Primer", kind: "primer" },
      lot: "AP-1",
      endsOn: { date: "2027-05-31", decidedBy: "use-by" },
    },
  ],
  products: [
    {
      name: "Dune Flow",
      kind: "flowable",
      identifiers: [{ scheme: "gs1-gtin", value: "09506000134352" }],
    },
  ],
} as unknown as KnownStock;
const words = {
  today: "2026-03-02",
  describe: (lot: string | null, end: string | null) => `${lot} ${end}`,
};
const entry = (route: OutboxEntry["route"], body: unknown, at: string): OutboxEntry => ({
  key: at,
  route,
  params: { trayId: "t1", itemId: "i1" },
  body,
  personId: "",
  personName: "",
  practiceId: "",
  about: "",
  belongsTo: "t1",
  at,
  tries: 0,
  refused: null,
});

describe("a scan named before the server answers", () => {
  test("is the container that the code is on, with its lot and end", () => {
    expect(nameScan({ barcodes: [`]d2${code}`] }, stock, words)).toEqual({
      name: `Alder Primer ${showContainerCode(code)}`,
      detail: "AP-1 2027-05-31",
      kind: "primer",
    });
  });

  test("is the product of a label's identifier, with the lot and end that the label gives", () => {
    const label = "01095060001343521727053110AB12";
    expect(nameScan({ barcodes: [label] }, stock, words)).toEqual({
      name: "Dune Flow",
      detail: "AB12 2027-05-31",
      kind: "flowable",
    });
  });

  test("is what the label says where this device knows no such product", () => {
    const told = { barcodes: ["01095060001343521727053110AB12"] };
    expect(nameScan(told, { ...stock, products: [] }, words)).toMatchObject({
      name: "09506000134352",
      kind: null,
    });
  });
});

describe("what is under way for a tray", () => {
  const scanned = entry("scanIntoTray", { barcodes: [code] }, "2026-03-02T09:00:00.000Z");
  const taken = entry("removeFromTray", undefined, "2026-03-02T09:00:01.000Z");

  test("is its scans, marked as late once the server has not answered for long", () => {
    const nowMs = Date.parse(scanned.at);
    expect(readPending([scanned, taken], stock, { ...words, nowMs: nowMs + 100 })).toMatchObject([
      { key: scanned.key, late: false },
    ]);
    expect(readPending([scanned], stock, { ...words, nowMs: nowMs + 5000 })).toMatchObject([
      { late: true },
    ]);
  });

  test("is the items whose removal waits", () => {
    expect([...listRemoved([scanned, taken])]).toEqual(["i1"]);
  });
});
