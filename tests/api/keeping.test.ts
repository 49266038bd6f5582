/** Excursions of storage, entered by hand and settled once; when a product is ordered again. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const open = (over: Partial<BodyOf<"openExcursion">> = {}) =>
  it.practice.assistant.call("openExcursion", {
    body: {
      locationId: make.places.refrigerator,
      from: "2026-06-14T20:00:00.000Z",
      to: "2026-06-15T05:00:00.000Z",
      highestC: 14.5,
      ...over,
    },
  });
const settle = (excursionId: string) =>
  it.practice.dentist.call("resolveExcursion", {
    params: { excursionId },
    body: { resolution: "within what the labeler allows for a night" },
  });

describe("an excursion", () => {
  test("tells what stood there meanwhile and is still here", async () => {
    const storage = { storageMinC: 2, storageMaxC: 8 };
    const product = await make.product("primer", storage);
    const before = (await open()).ok.containers;
    const given = { quantity: 2, locationId: make.places.refrigerator };
    const { containers } = await make.received(product, given);
    it.clock.set("2026-06-15T08:10:00.000Z");
    const from = "2026-06-15T07:00:00.000Z";
    const opened = (await open({ from, to: "2026-06-15T08:10:00.000Z" })).ok;
    expect(opened).toMatchObject({ location: { name: "Refrigerator" }, resolved: null });
    expect(opened.containers).toBe(before + 2);
    const body = {
      containerId: containers[0]!.id,
      fromLocationId: make.places.refrigerator,
      toLocationId: make.places.discarded,
      reason: "discarded" as const,
    };
    await it.practice.assistant.call("move", { body });
    const { excursions } = (await it.practice.office.call("listExcursions")).ok;
    const now = excursions.find(({ id }) => id === opened.id)!;
    expect(now.containers).toBe(before + 1);
    const { id, name } = product;
    expect(now.products).toContainEqual({ id, name, containers: 1, ...storage });
  });

  test("is settled once, by a dentist or the owner, and goes to the end of the list", async () => {
    const { id } = (await open()).ok;
    const settled = await settle(id);
    expect(settled.ok.resolved).toMatchObject({ by: "dentist" });
    expect((await settle(id)).problem).toBe("excursion-settled");
    const { excursions } = (await it.practice.office.call("listExcursions")).ok;
    const settledAt = excursions.map(({ resolved }) => resolved !== null);
    expect(settledAt).toEqual([...settledAt].sort((a, b) => Number(a) - Number(b)));
  });

  test("is refused where it ends before it begins, is not over, or says no temperature", async () => {
    const wrong: [Partial<BodyOf<"openExcursion">>, string][] = [
      [{ to: "2026-06-14T20:00:00.000Z" }, "/body/to"],
      [{ to: "2026-06-16T05:00:00.000Z" }, "/body/to"],
      [{ highestC: null }, "/body/highestC"],
      [{ lowestC: 15, highestC: 14 }, "/body/highestC"],
    ];
    for (const [over, path] of wrong) {
      const { problem, body } = await open(over);
      expect([problem, body]).toMatchObject(["invalid-request", { errors: [{ path }] }]);
    }
    expect((await open({ locationId: make.places.supplier })).problem).toBe("not-found");
  });
});

describe("the reorder point of a product", () => {
  const stockOf = async (productId: string) =>
    (await it.practice.assistant.call("getProductStock", { params: { productId } })).ok;
  const set = (productId: string, reorderUses: number | null) =>
    it.practice.office.call("setReorderPoint", { params: { productId }, body: { reorderUses } });

  test("stands beside the uses that the containers here still give", async () => {
    const product = await make.product("bonding-cement", { usesPerContainer: 3 });
    const { containers } = await make.received(product, { quantity: 2 });
    expect(await stockOf(product.id)).toEqual({ usesLeft: 6, reorderUses: null });
    expect((await set(product.id, 5)).ok).toEqual({ usesLeft: 6, reorderUses: 5 });
    const { id: trayId } = await make.tray({ technique: "bond-restoration" });
    await make.scanned(trayId, containers[0]!.code);
    await make.worked(await make.started(trayId));
    expect(await stockOf(product.id)).toEqual({ usesLeft: 5, reorderUses: 5 });
    const body = {
      containerId: containers[1]!.id,
      fromLocationId: make.places.store,
      toLocationId: make.places.quarantine,
      reason: "quarantined" as const,
    };
    await it.practice.assistant.call("move", { body });
    expect(await stockOf(product.id)).toEqual({ usesLeft: 2, reorderUses: 5 });
    expect((await set(product.id, null)).ok.reorderUses).toBeNull();
  });

  test("knows no uses where the entry states none", async () => {
    const product = await make.product("bonding-cement");
    await make.received(product);
    expect(await stockOf(product.id)).toEqual({ usesLeft: null, reorderUses: null });
  });
});
