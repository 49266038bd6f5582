import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";
import {
  act,
  addContainer,
  addLot,
  asAssistant,
  count,
  move,
  refusalOf,
  type Move,
  type PlaceKind,
} from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

let lots = 0;
const inPractice = <T>(work: (client: pg.Client) => Promise<T>) =>
  act(it.app, asAssistant(it.here), work);
const newLot = () => inPractice((client) => addLot(client, it.here, `lot ${(lots += 1)}`));
const moved = (told: Move) => inPractice((client) => move(client, it.here, told));
const receive = (lot: string, quantity: number, to: PlaceKind = "store") =>
  moved({ lot, from: "supplier", to, quantity, reason: "received" });
const newContainer = (lot: string, serial?: string) =>
  inPractice(async (client) => {
    const code = `C${String((lots += 1)).padStart(5, "0")}`;
    const told = { code, lot, ...(serial === undefined ? {} : { serial }) };
    const container = await addContainer(client, it.here, told);
    await move(client, it.here, { lot, container, from: "supplier", to: "store" });
    return container;
  });
const quantity = async (lot: string, place: PlaceKind) => {
  const { rows } = await it.owner.query<{ quantity: number }>(
    "select quantity from balance where practice_id = $1 and lot_id = $2 and location_id = $3",
    [it.here.id, lot, it.here.places[place]],
  );
  return rows[0]?.quantity ?? 0;
};

describe("a balance", () => {
  test("follows its movements on both sides", async () => {
    const lot = await newLot();
    await receive(lot, 5);
    await moved({ lot, from: "store", to: "operatory", quantity: 2 });
    expect(await quantity(lot, "supplier")).toBe(-5);
    expect(await quantity(lot, "store")).toBe(3);
    expect(await quantity(lot, "operatory")).toBe(2);
  });

  test("never falls below zero on a shelf, and a refused movement leaves no trace", async () => {
    const lot = await newLot();
    await receive(lot, 3);
    const before = await count(it.owner, "movement");
    const taken = moved({ lot, from: "store", to: "used", quantity: 4 });
    expect(await refusalOf(taken)).toBe("balance_not_below_zero");
    const unknown = moved({ lot: await newLot(), from: "store", to: "used" });
    expect(await refusalOf(unknown)).toBe("balance_not_below_zero");
    expect(await count(it.owner, "movement")).toBe(before);
    expect(await quantity(lot, "store")).toBe(3);
  });

  test("does not pass a shortage on within one transaction or one statement", async () => {
    const lot = await newLot();
    const inOrder = inPractice(async (client) => {
      await move(client, it.here, { lot, from: "store", to: "used" });
      await move(client, it.here, { lot, from: "supplier", to: "store" });
    });
    expect(await refusalOf(inOrder)).toBe("balance_not_below_zero");
  });

  test("is written by movements alone: the application has no privilege on it", async () => {
    const lot = await newLot();
    await receive(lot, 1);
    for (const text of [
      "update balance set quantity = 100",
      "delete from balance",
      "truncate balance",
      `insert into balance values ('${it.here.id}', '${lot}', '${it.here.places.lost}', true, 9)`,
      `insert into balance values ('${it.here.id}', '${lot}', '${it.here.places.store}', false, 9)
         on conflict on constraint balance_pk do update set quantity = 9`,
    ]) {
      expect(await refusalOf(inPractice((client) => client.query(text)))).toBe("42501");
    }
  });

  test("of the real table is kept, though the caller makes a temporary one of its name", async () => {
    const lot = await newLot();
    await receive(lot, 2);
    const client = await it.connect();
    await client.query("create temporary table balance (like public.balance)");
    await client.query("create temporary table container (like public.container)");
    await client.query("grant all on balance, container to public");
    const take = (much: number) =>
      act(client, asAssistant(it.here), (each) =>
        move(each, it.here, { lot, from: "store", to: "used", quantity: much }),
      );
    expect(await refusalOf(take(3))).toBe("balance_not_below_zero");
    await take(1);
    expect(await quantity(lot, "store")).toBe(1);
    expect(await count(client, "pg_temp.balance")).toBe(0);
  });
});

describe("a movement", () => {
  test("moves something, from one place to another, not before it was told", async () => {
    const lot = await newLot();
    await receive(lot, 2);
    const told = { lot, from: "store", to: "used" } as const;
    expect(await refusalOf(moved({ ...told, quantity: 0 }))).toBe("movement_quantity_positive");
    expect(await refusalOf(moved({ ...told, quantity: -1 }))).toBe("movement_quantity_positive");
    expect(await refusalOf(moved({ ...told, to: "store" }))).toBe("movement_between_places");
    expect(await refusalOf(moved({ ...told, reason: "mislaid" }))).toBe("movement_reason_known");
    const tomorrow = new Date(Date.now() + 86_400_000);
    const early = moved({ ...told, occurredAt: tomorrow });
    expect(await refusalOf(early)).toBe("movement_not_before_told");
  });

  test("names a lot and places of its own practice", async () => {
    const { there } = it;
    const foreign = { from: "supplier", to: "store" } as const;
    const other = moved({ ...foreign, lot: there.lot });
    expect(await refusalOf(other)).toBe("movement_lot_fk");
    const outside = inPractice((client) =>
      move(client, { ...it.here, places: there.places }, { ...foreign }),
    );
    expect(await refusalOf(outside)).toBe("movement_from_fk");
  });
});

describe("a container", () => {
  test("comes in from the supplier: it is not simply there", async () => {
    const lot = await newLot();
    for (const at of ["store", "used", "quarantine"] as const) {
      const placed = inPractice((client) =>
        addContainer(client, it.here, { code: "GHOST1", lot, at }),
      );
      expect(await refusalOf(placed)).toBe("container_starts_outside");
    }
  });

  test("is a piece of a lot of its own product", async () => {
    const product = newId();
    await it.owner.query(
      `insert into product (id, organisation_id, name, kind, created_at)
       values ($1, $2, 'another primer', 'primer', now())`,
      [product, it.here.organisation],
    );
    const made = inPractice((client) => addContainer(client, it.here, { code: "OTHER1", product }));
    expect(await refusalOf(made)).toBe("container_of_lots_product");
  });

  test("is moved from where it is, one at a time, as a piece of its own lot", async () => {
    const lot = await newLot();
    const container = await newContainer(lot);
    await receive(lot, 3, "operatory");
    const wrong = moved({ lot, container, from: "operatory", to: "used" });
    expect(await refusalOf(wrong)).toBe("container_not_there");
    const two = moved({ lot, container, from: "store", to: "used", quantity: 2 });
    expect(await refusalOf(two)).toBe("movement_container_single");
    const other = moved({ lot: await newLot(), container, from: "store", to: "used" });
    expect(await refusalOf(other)).toBe("movement_container_fk");
    await receive(lot, 1);
    await moved({ lot, container, from: "store", to: "operatory" });
    const late = moved({ lot, container, from: "store", to: "used" });
    expect(await refusalOf(late)).toBe("container_not_there");
  });

  test("is not taken by a movement of its lot: only what is loose goes by number", async () => {
    const lot = await newLot();
    await newContainer(lot);
    await newContainer(lot);
    await receive(lot, 1);
    expect(await quantity(lot, "store")).toBe(3);
    await moved({ lot, from: "store", to: "used" });
    const third = moved({ lot, from: "store", to: "used" });
    expect(await refusalOf(third)).toBe("balance_covers_containers");
    expect(await quantity(lot, "store")).toBe(2);
  });

  test("has one opening date, that nobody changes or takes back", async () => {
    const container = await newContainer(await newLot());
    const open = (on: string) =>
      inPractice((client) =>
        client.query(`update container set opened_on = ${on} where practice_id = $1 and id = $2`, [
          it.here.id,
          container,
        ]),
      );
    await open("'2026-03-01'");
    expect(await refusalOf(open("'2026-03-02'"))).toBe("container_opened_once");
    expect(await refusalOf(open("null"))).toBe("container_opened_once");
    await open("'2026-03-01'");
    const byOwner = it.owner.query("update container set opened_on = null where id = $1", [
      container,
    ]);
    expect(await refusalOf(byOwner)).toBe("container_opened_once");
  });

  test("keeps its place, lot, product and serial number: the application may not write them", async () => {
    for (const column of ["location_id", "lot_id", "product_id", "code", "serial", "id"]) {
      const changed = inPractice((client) =>
        client.query(`update container set ${column} = ${column}`),
      );
      expect([column, await refusalOf(changed)]).toEqual([column, "42501"]);
    }
  });

  test("of a serial number is there once a product, without one as often as it came", async () => {
    const [one, other] = [await newLot(), await newLot()];
    await newContainer(one, "S-1");
    expect(await refusalOf(newContainer(one, "S-1"))).toBe("container_serial_taken");
    expect(await refusalOf(newContainer(other, "S-1"))).toBe("container_serial_taken");
    await newContainer(one, "S-2");
    await newContainer(one);
    await newContainer(one);
  });
});

describe("a reversal", () => {
  test("is the mirror of what it names", async () => {
    const lot = await newLot();
    await receive(lot, 5);
    const other = await newLot();
    await receive(other, 5);
    const reverses = await moved({ lot, from: "store", to: "operatory", quantity: 2 });
    const mirror = { lot, from: "operatory", to: "store", quantity: 2, reverses } as const;
    for (const wrong of [
      { quantity: 1 },
      { from: "store", to: "operatory" },
      { to: "quarantine" },
      { lot: other },
    ] as const) {
      const refused = await refusalOf(moved({ ...mirror, ...wrong }));
      expect([wrong, refused]).toEqual([wrong, "movement_reversal_mirrors"]);
    }
    expect(await refusalOf(moved({ ...mirror, reverses: newId() }))).toBe(
      "movement_reversal_mirrors",
    );
    await moved(mirror);
    expect(await quantity(lot, "store")).toBe(5);
  });

  test("is made once, and is not undone itself", async () => {
    const lot = await newLot();
    await receive(lot, 5);
    const reverses = await moved({ lot, from: "store", to: "operatory" });
    const back = await moved({ lot, from: "operatory", to: "store", reverses });
    await moved({ lot, from: "store", to: "operatory" });
    const again = moved({ lot, from: "operatory", to: "store", reverses });
    expect(await refusalOf(again)).toBe("movement_reversed_once");
    const backAgain = moved({ lot, from: "store", to: "operatory", reverses: back });
    expect(await refusalOf(backAgain)).toBe("movement_reversal_mirrors");
  });

  test("is called one, and nothing else is", async () => {
    const lot = await newLot();
    await receive(lot, 1);
    const nameless = moved({ lot, from: "store", to: "used", reason: "reversed" });
    expect(await refusalOf(nameless)).toBe("movement_reversal_named");
    const reverses = await moved({ lot, from: "store", to: "used" });
    const quiet = moved({ lot, from: "used", to: "store", reverses, reason: "moved" });
    expect(await refusalOf(quiet)).toBe("movement_reversal_named");
  });
});
