import { describe, expect, test } from "@jest/globals";
import { makeContainerCode } from "#domain";
import { readScanned, type Scan } from "../scanner/scan.ts";
import type { Tray } from "./columns.ts";
import { findScanned, readFates, thrownAway, usedUp, usualFate, type Return } from "./fates.ts";

const room = { id: "room", name: "Operatory 1" };
const store = { id: "store", name: "Store" };
const about = (facts: Partial<Return> = {}): Return => ({
  containerId: "c",
  cameFrom: store,
  place: room,
  onShelf: true,
  otherTray: null,
  ...facts,
});
const container = (id: string, lot: string, code = makeContainerCode(1)) =>
  ({ id, code, lot, location: { ...room, kind: "operatory" } }) as unknown as NonNullable<
    Tray["items"][number]["container"]
  >;
const item = (one: ReturnType<typeof container>, barcode: string) =>
  ({ barcode, container: one }) as unknown as Tray["items"][number];
const scanOf = (raw: string): Scan => ({
  barcodes: [raw],
  reading: readScanned({ barcodes: [raw] }, "2026-06-15"),
  source: "scanner",
});

describe("what becomes of a container that nobody says anything of", () => {
  test("is that it goes back to where it stood", () => {
    expect(usualFate(about())).toBe("store");
    expect(usualFate(about({ cameFrom: null }))).toBe("room");
  });

  test("is that it goes on to the other tray that it stands on", () => {
    const otherTray = { id: "t", name: "C-1 / 16", room: { id: "room2", name: "Operatory 2" } };
    expect(usualFate(about({ otherTray }))).toBe("room2");
  });

  test("is that it stays in quarantine, whoever waits for it", () => {
    const place = { id: "quarantine", name: "Quarantine" };
    expect(usualFate(about({ place, onShelf: false }))).toBe("quarantine");
  });
});

test("what is sent names each container once, and not what stays where it is", () => {
  const all = ["a", "b", "c", "d"].map((id) => container(id, "L1"));
  const fates = { a: usedUp, b: thrownAway, c: "store", d: "room" };
  expect(readFates(all, fates, { b: " tip blocked " })).toEqual({
    usedUp: ["a"],
    discarded: [{ containerId: "b", note: "tip blocked" }],
    returned: [{ containerId: "c", locationId: "store" }],
  });
});

describe("a scan while a tray is put away", () => {
  // GS1 General Specifications: 01 the GTIN, 17 the expiry, 10 the lot; an example GTIN.
  const label = (lot: string) => `01095060001343521728033110${lot}`;
  const [first, second] = [makeContainerCode(1), makeContainerCode(2)];
  const tray = {
    items: [
      item(container("a", "L1", first), label("L1")),
      item(container("b", "L2", second), second),
      item(container("c", "L3", makeContainerCode(3)), makeContainerCode(3)),
      item(container("d", "L3", makeContainerCode(4)), makeContainerCode(4)),
    ],
  };

  test("finds the container by its code or by its label", () => {
    expect(findScanned(tray, scanOf(second))?.id).toBe("b");
    expect(findScanned(tray, scanOf(label("L1")))?.id).toBe("a");
    expect(findScanned(tray, scanOf(label("L2")))?.id).toBe("b");
  });

  test("finds none where none is meant, or two alike", () => {
    expect(findScanned(tray, scanOf(makeContainerCode(9)))).toBeUndefined();
    expect(findScanned(tray, scanOf(label("L9")))).toBeUndefined();
    expect(findScanned(tray, scanOf(label("L3")))).toBeUndefined();
    expect(findScanned(tray, scanOf("not a label"))).toBeUndefined();
  });
});
