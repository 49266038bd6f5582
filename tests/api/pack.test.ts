/** Several labels of one pack: received as what they say together, or stopped at the door. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { gs1Label, Maker, newGtin, type MadeProduct } from "../helpers/make.ts";

/** A bottle, the box of four of the same item, and a box whose number does not show what it is. */
const bottle = "09520000001070";
const boxOfFour = "19520000001077";
const otherBox = "09520000001087";
const useBy = "2028-03-31";

let it: TestApp;
let make: Maker;
let flow: MadeProduct;
let primer: MadeProduct;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
  const gtin = (value: string, packLevel: "unit" | "box", containers: number) =>
    ({ scheme: "gs1-gtin", value, packLevel, containers }) as const;
  flow = await make.product("flowable", {
    identifiers: [
      gtin(bottle, "unit", 1),
      gtin(boxOfFour, "box", 4),
      gtin(otherBox, "box", 2),
      { scheme: "hibc", value: "A999HC10", packLevel: "unit", containers: 1 },
    ],
  });
  primer = await make.usualProduct("primer");
});
afterAll(() => it.close());

const receive = (labels: string[][], more: Partial<BodyOf<"receive">> = {}) => {
  const [barcodes = [], ...packLabels] = labels;
  return it.practice.assistant.call("receive", {
    params: { deliveryId: make.deliveryId },
    body: { barcodes, packLabels, locationId: make.places.store, ...more },
  });
};

describe("the labels of a pack", () => {
  test("are taken together: an EAN-13 outside, a GS1 DataMatrix inside", async () => {
    const lot = make.name("L");
    const inside = gs1Label({ gtin: bottle, lot, useBy });
    const { ok } = await receive([["]E09520000001070"], [inside]]);
    expect(ok).toMatchObject({ lot, useBy: { date: useBy, precision: "day" } });
    expect(ok.product.id).toBe(flow.id);
    const [row] = await asOwner<{ barcode: string }>(
      it.database,
      "select barcode from delivery_line where id = $1",
      [ok.id],
    );
    expect(row?.barcode).toBe(`]E09520000001070\n${inside}`);
  });

  test("fill each other's gaps, in any order, and the outermost says how many came", async () => {
    const lot = make.name("L");
    const box = gs1Label({ gtin: boxOfFour, lot, useBy: null });
    const labels = [[`]d201${bottle}17280331`], [box]];
    for (const each of [labels, [...labels].reverse()]) {
      const { ok } = await receive(each);
      expect(ok).toMatchObject({ lot, useBy: { date: useBy } });
      expect(ok.containers).toHaveLength(4);
    }
  });

  test("agree where one gives the month and the other a day in it", async () => {
    const lot = make.name("L");
    const { ok } = await receive([
      [`]d201${bottle}1728040010${lot}`],
      [gs1Label({ gtin: bottle, lot, useBy: "2028-04-15" })],
    ]);
    expect(ok.useBy).toEqual({ date: "2028-04-15", precision: "day" });
  });

  test("are one item's where the catalogue says so, whatever their identifiers look like", async () => {
    const lot = make.name("L");
    const outside = [gs1Label({ gtin: otherBox, lot, useBy })];
    const inside = ["+A999HC10M"];
    expect((await receive([inside, outside])).ok.containers).toHaveLength(2);
  });

  test("keep the serial of the bottle, not of its box", async () => {
    const lot = make.name("L");
    const single = newGtin();
    const body = { scheme: "gs1-gtin" as const, value: single, packLevel: "box" as const };
    await it.practice.office.call("addIdentifier", {
      params: { productId: flow.id },
      body: { ...body, containers: 1 },
    });
    const [own, boxes] = [make.name("S"), make.name("S")];
    const { ok } = await receive([
      [gs1Label({ gtin: single, lot, useBy, serial: boxes })],
      [gs1Label({ gtin: bottle, lot, useBy, serial: own })],
    ]);
    expect(ok.serial).toBe(own);
  });

  test("that say too little together are asked to be completed", async () => {
    const answer = await receive([["]E09520000001070"], [`]d201${boxOfFour}17280331`]]);
    expect(answer.problem).toBe("label-incomplete");
    expect(answer.body).toMatchObject({
      lacks: ["lot"],
      reading: { identifier: { value: boxOfFour }, useBy: { date: useBy } },
    });
    const lot = make.name("typed");
    const completed = await receive([["]E09520000001070"], [`]d201${bottle}17280331`]], { lot });
    expect(completed.ok.lot).toBe(lot);
  });
});

describe("at the door is stopped", () => {
  const label = (lot: string, more: { gtin?: string; useBy?: string; serial?: string } = {}) =>
    gs1Label({ gtin: bottle, lot, useBy, ...more });

  test.each([
    [
      "lots that differ in one letter",
      [[label("DF-118O", { gtin: boxOfFour })], [label("DF-1180")]],
      [{ field: "lot", values: ["DF-118O", "DF-1180"] }],
    ],
    [
      "use-by dates that differ",
      [["]E09520000001070"], [label("L1")], [label("L1", { useBy: "2028-04-01" })]],
      [{ field: "useBy", values: [null, useBy, "2028-04-01"] }],
    ],
    [
      "serials of two bottles",
      [[label("L1", { serial: "A" })], [label("L1", { serial: "B" })]],
      [{ field: "serial", values: ["A", "B"] }],
    ],
  ])("%s, and nothing is received", async (_, labels, conflicts) => {
    const countHere = async () => {
      const { balances } = (await it.practice.office.call("listBalances", { query: {} })).ok;
      return balances.map(({ lot, quantity }) => [lot, quantity]);
    };
    const before = await countHere();
    const answer = await receive(labels);
    expect(answer.problem).toBe("pack-conflict");
    expect(answer.status).toBe(409);
    expect(answer.body).toMatchObject({ conflicts });
    expect(await countHere()).toEqual(before);
  });

  test("what belongs to two products, or to one and to nobody knows which", async () => {
    for (const gtin of [primer.gtin, newGtin()]) {
      const answer = await receive([[label("L1")], [label("L1", { gtin })]]);
      expect(answer.problem).toBe("pack-conflict");
      const conflicts = [{ field: "identifier", values: [bottle, gtin] }];
      expect(answer.body).toMatchObject({ conflicts });
    }
  });

  test("two products whose identifiers differ in the level alone", async () => {
    const level = "29520000001074";
    const params = { productId: primer.id };
    const body = { scheme: "gs1-gtin" as const, value: level, containers: 1 };
    await it.practice.office.call("addIdentifier", { params, body });
    const answer = await receive([[label("L1")], [label("L1", { gtin: level })]]);
    expect(answer.problem).toBe("pack-conflict");
  });

  test("a pack of which one label cannot be read, or is a code of our own", async () => {
    const { first } = await make.received(primer);
    for (const bad of ["]d20109520000001071", first.code]) {
      const answer = await receive([[label("L1")], [bad]]);
      expect(answer.problem).toBe("label-unreadable");
    }
  });

  test("more labels than a pack bears", async () => {
    const answer = await receive(Array.from({ length: 6 }, () => [label("L1")]));
    expect(answer.problem).toBe("invalid-request");
  });
});
