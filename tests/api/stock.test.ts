/** Containers, their life and their places; movements and what undoes them; balances. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { asOwner } from "../helpers/database.ts";
import { Maker, type MadeLot } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const bottles = async (quantity = 1) =>
  make.received(await make.usualProduct("primer"), { quantity });
const move = (body: Partial<BodyOf<"move">>) =>
  it.practice.assistant.call("move", {
    body: {
      fromLocationId: make.places.store,
      toLocationId: make.places.operatory,
      reason: "moved",
      ...body,
    },
  });
const reverse = (movementId: string) =>
  it.practice.office.call("reverseMovement", {
    params: { movementId },
    body: { note: "wrong bottle" },
  });
const story = async (containerId: string) =>
  (await it.practice.dentist.call("getContainer", { params: { containerId } })).ok;
const balance = async (lot: string) => {
  const { balances } = (await it.practice.office.call("listBalances", { query: { lot } })).ok;
  return Object.fromEntries(balances.map((each) => [each.location.kind, each.quantity]));
};

/** Three of a lot that nobody tracks one by one: found at a count. */
async function counted(quantity: number): Promise<MadeLot> {
  const lot = await bottles();
  await move({ containerId: lot.first.id, toLocationId: make.places.used, reason: "used-up" });
  const { lotId } = lot;
  const fromLocationId = make.places["count-difference"];
  const found = { fromLocationId, toLocationId: make.places.store, reason: "counted" as const };
  expect((await move({ lotId, quantity, ...found })).status).toBe(201);
  return lot;
}

describe("containers", () => {
  test("are listed by what ends first, page by page, and each once", async () => {
    const product = await make.product("flowable");
    const ends = ["2028-05-31", "2027-01-31", null, "2029-12-31", "2027-01-31"];
    for (const useBy of ends) await make.received(product, { useBy });
    const listed: string[] = [];
    let after: string | null | undefined;
    do {
      const query = { product: product.id, limit: 2, ...(after ? { after } : {}) };
      const page = (await it.practice.office.call("listContainers", { query })).ok;
      listed.push(...page.containers.map(({ useBy }) => useBy?.date ?? "none"));
      after = page.next;
    } while (after !== null);
    expect(listed).toEqual(["2027-01-31", "2027-01-31", "2028-05-31", "2029-12-31", "none"]);
  });

  test("are filtered by place, lot, state and by being here", async () => {
    const { lot, containers } = await bottles(4);
    const [opened, used, quarantined] = containers;
    const params = { containerId: opened!.id };
    await it.practice.assistant.call("openContainer", { params, body: {} });
    await move({ containerId: used!.id, toLocationId: make.places.used, reason: "used-up" });
    await move({
      containerId: quarantined!.id,
      toLocationId: make.places.quarantine,
      reason: "quarantined",
    });
    const count = async (query: object) =>
      (await it.practice.office.call("listContainers", { query: { lot, ...query } })).ok.containers
        .length;
    expect(await count({})).toBe(4);
    expect(await count({ here: "true" })).toBe(3);
    expect(await count({ here: "false" })).toBe(1);
    expect(await count({ state: "open" })).toBe(1);
    expect(await count({ state: "sealed" })).toBe(1);
    expect(await count({ state: "empty" })).toBe(1);
    expect(await count({ state: "quarantined" })).toBe(1);
    expect(await count({ location: make.places.quarantine })).toBe(1);
    expect(await count({ product: newId() })).toBe(0);
  });

  test("tell their whole life: places, who moved them, and the teeth they served", async () => {
    const { trayId, container } = await make.smallTray();
    const record = await make.worked(await make.started(trayId));
    const { container: now, movements, uses } = await story(container.id);
    expect(now).toMatchObject({ id: container.id, state: "open", openedOn: "2026-06-15" });
    expect(movements.map(({ from, to, reason, person }) => [from, to, reason, person])).toEqual([
      ["Supplier", "Store", "received", "assistant"],
      ["Store", "Operatory 1", "tray", "assistant"],
    ]);
    expect(uses).toEqual([
      {
        recordId: record.id,
        chartNumber: record.chartNumber,
        tooth: "16",
        stepKey: "cement",
        usedAt: "2026-06-15T08:00:00.000Z",
      },
    ]);
    const params = { containerId: newId() };
    expect((await it.practice.office.call("getContainer", { params })).problem).toBe("not-found");
  });
});

describe("opening", () => {
  const open = (containerId: string, on?: string) =>
    it.practice.assistant.call("openContainer", {
      params: { containerId },
      body: on === undefined ? {} : { on },
    });

  test("starts the in-use life, which ends before the use-by date or after it", async () => {
    const product = await make.product("primer", { inUseLife: { count: 30, unit: "day" } });
    const { first } = await make.received(product);
    const { ok } = await open(first.id, "2026-06-01");
    expect(ok).toMatchObject({ openedOn: "2026-06-01", state: "open" });
    expect(ok.endsOn).toEqual({ date: "2026-07-01", decidedBy: "in-use-life" });
    const soon = await make.received(product, { useBy: "2026-06-20" });
    const short = (await open(soon.first.id)).ok;
    expect(short.endsOn).toEqual({ date: "2026-06-20", decidedBy: "use-by" });
  });

  test("happens once, whoever is first", async () => {
    const { first } = await bottles();
    const answers = await Promise.all([1, 2, 3, 4, 5].map(() => open(first.id)));
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    for (const late of answers.filter(({ status }) => status !== 200)) {
      expect(late.problem).toBe("already-opened");
    }
  });

  test("is not possible for tomorrow, for what is not here, or for nothing", async () => {
    const { first } = await bottles();
    expect((await open(first.id, "2026-06-16")).problem).toBe("invalid-request");
    await move({ containerId: first.id, toLocationId: make.places.lost, reason: "lost" });
    expect((await open(first.id)).problem).toBe("container-not-there");
    expect((await open(newId())).problem).toBe("not-found");
  });
});

describe("a movement", () => {
  test("takes a container from one place to another, now or as told later", async () => {
    const { first, lotId } = await bottles();
    const occurredAt = "2026-06-14T16:30:00.000Z";
    const { ok } = await move({ containerId: first.id, note: "for tomorrow", occurredAt });
    expect(ok.movement).toMatchObject({
      from: "Store",
      to: "Operatory 1",
      quantity: 1,
      reason: "moved",
      note: "for tomorrow",
      occurredAt,
      recordedAt: "2026-06-15T08:00:00.000Z",
      person: "assistant",
      reverses: null,
      reversedBy: null,
    });
    expect(await balance(lotId)).toEqual({ operatory: 1, supplier: -1 });
  });

  test.each([
    ["quarantined", "quarantine", "quarantined"],
    ["used-up", "used", "empty"],
    ["discarded", "discarded", "discarded"],
    ["returned", "returned", "returned"],
    ["lost", "lost", "lost"],
    ["put-away", "refrigerator", "sealed"],
  ] as const)("for the reason %s leads to %s and makes it %s", async (reason, kind, state) => {
    const { first } = await bottles();
    const to = { containerId: first.id, toLocationId: make.places[kind], reason };
    expect((await move(to)).status).toBe(201);
    expect((await story(first.id)).container).toMatchObject({ state, location: { kind } });
    const wrong = { ...to, fromLocationId: make.places[kind], toLocationId: make.places.supplier };
    expect((await move(wrong)).problem).toBe("invalid-request");
  });

  test("starts where the container is", async () => {
    const { containers } = await bottles(2);
    const [first, second] = containers;
    await move({ containerId: first!.id });
    // Another of the lot stands in the store, so that the balance alone would allow it.
    expect((await move({ containerId: first!.id })).problem).toBe("container-not-there");
    await move({ containerId: second!.id });
    expect((await move({ containerId: second!.id })).problem).toBe("not-enough-stock");
  });

  test("of a quantity takes no more than there is, and none that is tracked one by one", async () => {
    const { lotId } = await counted(3);
    const use = { lotId, toLocationId: make.places.used, reason: "used-up" as const };
    expect((await move({ ...use, quantity: 4 })).problem).toBe("not-enough-stock");
    expect((await move({ ...use, quantity: 2 })).ok.movement.quantity).toBe(2);
    expect((await move({ ...use, quantity: 2 })).problem).toBe("not-enough-stock");
    const tracked = await bottles(3);
    expect((await move({ ...use, lotId: tracked.lotId })).problem).toBe("not-enough-stock");
  });

  test("needs things and places that exist", async () => {
    const { first, lotId } = await bottles();
    expect((await move({ containerId: newId() })).problem).toBe("not-found");
    expect((await move({ lotId: newId() })).problem).toBe("not-found");
    const containerId = first.id;
    expect((await move({ containerId, toLocationId: newId() })).problem).toBe("not-found");
    expect((await move({ containerId, fromLocationId: newId() })).problem).toBe("not-found");
    expect(await balance(lotId)).toEqual({ store: 1, supplier: -1 });
  });

  test("is refused where it cannot be meant", async () => {
    const { first, lotId } = await bottles();
    const { store, supplier, operatory } = make.places;
    const difference = make.places["count-difference"];
    for (const wrong of [
      {},
      { containerId: first.id, lotId },
      { containerId: first.id, quantity: 2 },
      { containerId: first.id, toLocationId: store },
      { containerId: first.id, occurredAt: "2026-06-15T08:06:00.000Z" },
      { containerId: first.id, reason: "counted" as const },
      { lotId, fromLocationId: supplier, toLocationId: store },
      { lotId, fromLocationId: difference, toLocationId: operatory },
      { lotId, fromLocationId: difference, toLocationId: difference, reason: "counted" as const },
    ]) {
      const answer = await move(wrong);
      expect([wrong, answer.status < 300 ? "done" : answer.problem]).toEqual([
        wrong,
        "invalid-request",
      ]);
    }
    expect(await balance(lotId)).toEqual({ store: 1, supplier: -1 });
  });
});

describe("a wrong movement", () => {
  test("is undone by its mirror, which names it, and which it names", async () => {
    const { first, lotId } = await bottles();
    const wrong = { containerId: first.id, toLocationId: make.places.discarded };
    const { movement } = (await move({ ...wrong, reason: "discarded" })).ok;
    const undone = (await reverse(movement.id)).ok.movement;
    expect(undone).toMatchObject({ from: "Discarded", to: "Store", reason: "reversed" });
    expect(undone).toMatchObject({ reverses: movement.id, note: "wrong bottle" });
    const { container, movements } = await story(first.id);
    expect(container.state).toBe("sealed");
    expect(movements.find(({ id }) => id === movement.id)?.reversedBy).toBe(undone.id);
    expect(await balance(lotId)).toEqual({ store: 1, supplier: -1 });
  });

  test("is undone once, and its mirror not at all", async () => {
    const { first } = await bottles();
    const { movement } = (await move({ containerId: first.id })).ok;
    const undone = (await reverse(movement.id)).ok.movement;
    expect((await reverse(movement.id)).problem).toBe("movement-already-reversed");
    expect((await reverse(undone.id)).problem).toBe("movement-not-reversible");
    expect((await reverse(newId())).problem).toBe("not-found");
  });

  test("is not undone once the container has moved on", async () => {
    const { containers } = await bottles(2);
    const ids = containers.map(({ id }) => id);
    const { movement } = (await move({ containerId: ids[0]! })).ok;
    const away = { fromLocationId: make.places.operatory, toLocationId: make.places.used };
    await move({ containerId: ids[0]!, ...away, reason: "used-up" });
    expect((await reverse(movement.id)).problem).toBe("not-enough-stock");
    await move({ containerId: ids[1]! });
    expect((await reverse(movement.id)).problem).toBe("container-not-there");
  });
});

describe("the last units", () => {
  test("of 40 who take the last three at once three get them, without any fault", async () => {
    const { lotId } = await counted(3);
    const people = [it.practice.assistant, it.practice.dentist, it.practice.office];
    const take = {
      lotId,
      fromLocationId: make.places.store,
      toLocationId: make.places.used,
      reason: "used-up" as const,
    };
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, n) => people[n % 3]!.call("move", { body: take })),
    );
    const refused = answers.filter(({ status }) => status !== 201);
    expect(answers.length - refused.length).toBe(3);
    expect(refused.map(({ problem }) => problem)).toEqual(Array(37).fill("not-enough-stock"));
    expect(await balance(lotId)).toEqual({ "count-difference": -3, supplier: -1, used: 4 });
  });

  test("of 40 who take the last three bottles by their codes three get them", async () => {
    const { lotId, containers } = await bottles(3);
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, n) =>
        move({
          containerId: containers[n % 3]!.id,
          toLocationId: n % 2 ? make.places.used : make.places.discarded,
          reason: n % 2 ? "used-up" : "discarded",
        }),
      ),
    );
    const refused = answers.filter(({ status }) => status !== 201);
    expect(answers.length - refused.length).toBe(3);
    for (const { problem } of refused) {
      expect(["not-enough-stock", "container-not-there"]).toContain(problem);
    }
    const { store = 0, used = 0, discarded = 0 } = await balance(lotId);
    expect([store, used + discarded]).toEqual([0, 3]);
  });

  test("crossing movements of two lots end without a deadlock, and the books are right", async () => {
    const lots = [await bottles(6), await bottles(6)];
    const { store, operatory } = make.places;
    const rounds = Array.from({ length: 60 }, (_, n) => {
      const containerId = lots[n % 2]!.containers[n % 6]!.id;
      const [fromLocationId, toLocationId] = n % 4 < 2 ? [store, operatory] : [operatory, store];
      return move({ containerId, fromLocationId, toLocationId });
    });
    const answers = await Promise.all(rounds);
    expect(answers.filter(({ status }) => status >= 500)).toEqual([]);
    const differences = await asOwner(
      it.database,
      `select b.lot_id from balance b where b.quantity <> (
         select coalesce(sum(m.quantity * ((m.to_location_id = b.location_id)::int
                                         - (m.from_location_id = b.location_id)::int)), 0)
         from movement m where m.practice_id = b.practice_id and m.lot_id = b.lot_id)`,
    );
    expect(differences).toEqual([]);
    const { ok } = await it.practice.owner.call("verifyAudit");
    expect(ok).toMatchObject({ ok: true, fault: null, ledger: { differences: 0 } });
    expect(ok.ledger.balances).toBeGreaterThan(10);
  });
});
