import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import {
  act,
  addContainer,
  addLot,
  asAssistant,
  count,
  move,
  refusalOf,
  type PlaceKind,
} from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";
import { chooseSeed, seeded } from "../helpers/seeded.ts";

let it: Scene;
let lots = 0;
const pool: pg.Client[] = [];
beforeAll(async () => {
  it = await openScene();
  for (let i = 0; i < 40; i++) pool.push(await it.connect());
});
afterAll(() => it.close());

const on = <T>(client: pg.Client, work: (client: pg.Client) => Promise<T>) =>
  act(client, asAssistant(it.here), work);
const newLot = (quantity: number) =>
  on(it.app, async (client) => {
    const lot = await addLot(client, it.here, `lot ${(lots += 1)}`);
    if (quantity === 0) return lot;
    await move(client, it.here, { lot, from: "supplier", to: "store", quantity });
    return lot;
  });
const newContainer = (lot: string, serial?: string) =>
  on(it.app, async (client) => {
    const code = `C${String((lots += 1)).padStart(5, "0")}`;
    const told = { code, lot, ...(serial === undefined ? {} : { serial }) };
    const container = await addContainer(client, it.here, told);
    await move(client, it.here, { lot, container, from: "supplier", to: "store" });
    return container;
  });
/** How often each answer came; "done" where nothing was refused. */
async function tally(attempts: Promise<unknown>[]): Promise<Record<string, number>> {
  const answers = await Promise.all(attempts.map(refusalOf));
  const found: Record<string, number> = {};
  for (const answer of answers) {
    const name = answer === "not refused" ? "done" : answer;
    found[name] = (found[name] ?? 0) + 1;
  }
  return found;
}
const take = (client: pg.Client, lot: string, to: PlaceKind = "used") =>
  on(client, (each) => move(each, it.here, { lot, from: "store", to }));

/** Balances that are not the sum of their movements. */
const differences = () =>
  count(
    it.owner,
    `(select lot_id, location_id, sum(quantity) as quantity from (
        select lot_id, to_location_id as location_id, quantity from movement
        union all select lot_id, from_location_id, -quantity from movement) each
      group by lot_id, location_id) told
     full join balance b using (lot_id, location_id)
     where coalesce(told.quantity, 0) <> coalesce(b.quantity, 0)`,
  );
const negative = () => count(it.owner, "balance where quantity < 0 and not outside");

describe("the last units", () => {
  test("of three, 40 takers at once get exactly three, and 37 are refused", async () => {
    const lot = await newLot(3);
    const found = await tally(pool.map((client) => take(client, lot)));
    expect(found).toEqual({ done: 3, balance_not_below_zero: 37 });
    expect(await differences()).toBe(0);
  });

  test("of one, 32 clients get one in each of 20 rounds, whatever takes it", async () => {
    const uses = ["used", "discarded", "operatory", "count-difference"] as const;
    for (let round = 0; round < 20; round++) {
      const lot = await newLot(1);
      const clients = pool.slice(0, 32);
      const found = await tally(clients.map((client, i) => take(client, lot, uses[i % 4])));
      expect([round, found]).toEqual([round, { done: 1, balance_not_below_zero: 31 }]);
    }
    expect(await differences()).toBe(0);
    expect(await negative()).toBe(0);
  });

  test("are only those that no container accounts for, while containers move", async () => {
    const lot = await newLot(2);
    const containers = await Promise.all([newContainer(lot), newContainer(lot), newContainer(lot)]);
    const found = await tally([
      ...pool.slice(0, 20).map((client) => take(client, lot)),
      ...containers.map((container, i) =>
        on(pool[20 + i]!, (client) =>
          move(client, it.here, { lot, container, from: "store", to: "operatory" }),
        ),
      ),
    ]);
    expect(found["done"]).toBe(5);
    expect(await differences()).toBe(0);
    expect(await negative()).toBe(0);
  });
});

describe("one thing that two want", () => {
  const both = (attempt: (client: pg.Client) => Promise<unknown>) =>
    tally(pool.slice(0, 8).map(attempt));

  test("a container leaves its shelf once", async () => {
    const lot = await newLot(8);
    const container = await newContainer(lot);
    const found = await both((client) =>
      on(client, (each) => move(each, it.here, { lot, container, from: "store", to: "operatory" })),
    );
    expect(found).toEqual({ done: 1, container_not_there: 7 });
  });

  test("a container is opened once", async () => {
    const container = await newContainer(await newLot(0));
    const days = new Map(pool.map((client, i) => [client, `2026-03-${String(i + 1)}`]));
    const found = await both((client) =>
      on(client, (each) =>
        each.query("update container set opened_on = $3 where practice_id = $1 and id = $2", [
          ...[it.here.id, container],
          days.get(client),
        ]),
      ),
    );
    expect(found).toEqual({ done: 1, container_opened_once: 7 });
  });

  test("a movement is reversed once", async () => {
    const lot = await newLot(20);
    const reverses = await on(it.app, (client) =>
      move(client, it.here, { lot, from: "store", to: "operatory", quantity: 2 }),
    );
    await on(it.app, (client) =>
      move(client, it.here, { lot, from: "store", to: "operatory", quantity: 18 }),
    );
    const mirror = { lot, from: "operatory", to: "store", quantity: 2, reverses } as const;
    const found = await both((client) => on(client, (each) => move(each, it.here, mirror)));
    expect(found).toEqual({ done: 1, movement_reversed_once: 7 });
  });

  test("a serial number is registered once", async () => {
    const lot = await newLot(0);
    const found = await both((client) =>
      on(client, (each) =>
        addContainer(each, it.here, { lot, code: `D${lots++}0000`, serial: "S-9" }),
      ),
    );
    expect(found).toEqual({ done: 1, container_serial_taken: 7 });
  });
});

test("2,000 crossing movements on 8 connections: no deadlock, each balance the sum", async () => {
  const seed = chooseSeed();
  const random = seeded(seed);
  const places = ["store", "operatory", "quarantine", "used"] as const;
  const crossed = await Promise.all([newLot(400), newLot(400), newLot(400)]);
  const before = await count(it.owner, "movement");
  const plan = Array.from({ length: 2_000 }, () => {
    const from = random.pick(places);
    const to = random.pick(places.filter((place) => place !== from));
    return { lot: random.pick(crossed), from, to, quantity: 1 + random.int(40) };
  });
  const answers = new Map<string, number>();
  await Promise.all(
    pool.slice(0, 8).map(async (client) => {
      for (let next = plan.pop(); next; next = plan.pop()) {
        const told = next;
        const answer = await refusalOf(on(client, (each) => move(each, it.here, told)));
        answers.set(answer, (answers.get(answer) ?? 0) + 1);
      }
    }),
  );
  const done = answers.get("not refused") ?? 0;
  const short = answers.get("balance_not_below_zero") ?? 0;
  // Every answer is one of the two: a deadlock would be a third.
  expect([seed, done + short]).toEqual([seed, 2_000]);
  expect(done).toBeGreaterThan(500);
  expect(await count(it.owner, "movement")).toBe(before + done);
  expect(await differences()).toBe(0);
  expect(await negative()).toBe(0);
}, 60_000);
