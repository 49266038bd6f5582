/** Excursions, curing lights, reorder points and techniques: what SQL alone cannot make untrue. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "@jest/globals";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { act, asAssistant, asDentist, count, refusalOf, type ScenePractice } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

// SQLSTATE 42501, insufficient_privilege; TB001 is our own "it is append-only".
const noPrivilege = "42501";
const byTrigger = "TB001";
const done = "not refused";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const asApp = (text: string, ...values: unknown[]) =>
  refusalOf(act(it.app, asDentist(it.here), (client) => client.query(text, values)));
const asOwner = (text: string, ...values: unknown[]) => refusalOf(it.owner.query(text, values));

interface Excursion {
  id?: string;
  of?: ScenePractice;
  place?: string;
  /** Minutes from now. */
  from?: number;
  to?: number;
  lowest?: number | null;
  highest?: number | null;
}
/** An excursion of an hour as the application tells it; says what it is refused by. */
const tell = (told: Excursion = {}) => {
  const { id = newId(), of = it.here, place = it.here.places.store } = told;
  const { from = -120, to = -60, lowest = null, highest = 31.5 } = told;
  return asApp(
    `insert into storage_excursion (practice_id, id, location_id, from_at, to_at, lowest_c,
       highest_c, opened_by, opened_at)
     values ($1, $2, $3, now() + $4 * interval '1 minute', now() + $5 * interval '1 minute', $6,
       $7, $8, now())`,
    ...[of.id, id, place, from, to, lowest, highest, it.here.assistant],
  );
};

describe("an excursion", () => {
  test("has a beginning before its end, and is over when it is told", async () => {
    expect(await tell()).toBe(done);
    expect(await tell({ from: -60 })).toBe("storage_excursion_order");
    expect(await tell({ from: -59 })).toBe("storage_excursion_order");
    expect(await tell({ to: 0 })).toBe(done);
    // A tablet's clock may be a minute ahead.
    expect(await tell({ to: 1 })).toBe(done);
    expect(await tell({ to: 2 })).toBe("storage_excursion_over");
  });

  test("says how cold or how warm it was, the lowest not above the highest", async () => {
    expect(await tell({ highest: null })).toBe("storage_excursion_measured");
    expect(await tell({ lowest: -4, highest: null })).toBe(done);
    expect(await tell({ lowest: 9, highest: 9 })).toBe(done);
    expect(await tell({ lowest: 9.1, highest: 9 })).toBe("storage_excursion_range");
  });

  test("is of a place of its own practice", async () => {
    const { here, there } = it;
    expect(await tell({ place: there.places.store })).toBe("storage_excursion_location_fk");
    expect(await tell({ of: there, place: there.places.store })).toBe(noPrivilege);
    expect(await tell({ of: here, place: newId() })).toBe("storage_excursion_location_fk");
  });

  describe("once it is told", () => {
    let id: string;
    beforeEach(async () => {
      id = newId();
      expect(await tell({ id })).toBe(done);
    });
    const mine = () => `where practice_id = '${it.here.id}' and id = '${id}'`;
    const settle = (text: string | null, by: string | null = it.here.dentist) =>
      asApp(
        `update storage_excursion set resolved_by = $1, resolved_at = now(), resolution = $2
         ${mine()}`,
        ...[by, text],
      );

    test("is settled once and for all, with who, when and why", async () => {
      expect(await settle("fine", it.here.dentist)).toBe("storage_excursion_resolution_given");
      expect(await settle("    fine    ")).toBe("storage_excursion_resolution_given");
      expect(await settle(null)).toBe("storage_excursion_resolved_whole");
      expect(await settle("Used up today.", null)).toBe("storage_excursion_resolved_whole");
      expect(await settle("Used up today.")).toBe(done);
      expect(await settle("Thrown away.")).toBe(byTrigger);
      const open = "resolved_by = null, resolved_at = null, resolution = null";
      expect(await asApp(`update storage_excursion set ${open} ${mine()}`)).toBe(byTrigger);
      expect(await asOwner(`update storage_excursion set ${open} ${mine()}`)).toBe(byTrigger);
      const kept = `storage_excursion ${mine()} and resolution = 'Used up today.'`;
      expect(await count(it.owner, kept)).toBe(1);
    });

    test.each([
      "highest_c = 20",
      "lowest_c = 2",
      "from_at = from_at + interval '1 second'",
      "to_at = to_at - interval '1 second'",
      "location_id = location_id",
      "note = 'something else'",
      "opened_at = opened_at - interval '1 day'",
      "id = gen_random_uuid()",
    ])("cannot be told differently: %s", async (change) => {
      const text = `update storage_excursion set ${change} ${mine()}`;
      expect(await asApp(text)).toBe(noPrivilege);
      // The owner may write the same value again, which changes nothing.
      const same = change === "location_id = location_id";
      expect(await asOwner(text)).toBe(same ? done : byTrigger);
    });

    test("cannot be told differently while it is settled either", async () => {
      const settled = `resolved_by = '${it.here.dentist}', resolved_at = now(),
        resolution = 'Used up today.'`;
      const text = `update storage_excursion set ${settled}, highest_c = 20 ${mine()}`;
      expect(await asOwner(text)).toBe(byTrigger);
    });

    test("stays", async () => {
      expect(await asApp(`delete from storage_excursion ${mine()}`)).toBe(noPrivilege);
      expect(await asOwner(`delete from storage_excursion ${mine()}`)).toBe(byTrigger);
      expect(await asOwner("truncate storage_excursion")).toBe(byTrigger);
    });
  });

  test("is settled by one of two who do it at the same moment", async () => {
    const id = newId();
    await tell({ id });
    const [one, other] = [await it.connect(), await it.connect()];
    const text = `update storage_excursion set resolved_by = $2, resolved_at = now(),
        resolution = $3 where practice_id = $1 and id = '${id}' and resolved_at is null`;
    const rows = await Promise.all(
      [one, other].map((client, index) =>
        act(client, asDentist(it.here), async () => {
          const values = [it.here.id, it.here.dentist, `It was decided by ${index}.`];
          return (await client.query(text, values)).rowCount;
        }),
      ),
    );
    expect(rows.toSorted((a, b) => a! - b!)).toEqual([0, 1]);
  });
});

describe("a curing light", () => {
  const add = (name: string, told: { tip?: number | null; place?: string | null } = {}) =>
    asApp(
      "insert into curing_light values ($1, $2, $3, '', $4, $5, false, now())",
      ...[it.here.id, newId(), name, told.tip ?? null, told.place ?? null],
    );

  test("has a name of its own, a tip of a possible width and a place of its practice", async () => {
    expect(await add("Lamp")).toBe(done);
    expect(await add("Lamp")).toBe("curing_light_name_taken");
    expect(await add(" ")).toBe("curing_light_name_filled");
    expect(await add("Narrow", { tip: 9 })).toBe("curing_light_tip_range");
    expect(await add("Wide", { tip: 301 })).toBe("curing_light_tip_range");
    const elsewhere = it.there.places.operatory;
    expect(await add("Away", { place: elsewhere })).toBe("curing_light_location_fk");
  });

  test("keeps its modes, and is never deleted", async () => {
    for (const table of ["curing_light", "curing_light_mode", "light_reading"]) {
      expect(await asApp(`delete from ${table}`)).toBe(noPrivilege);
    }
    expect(await asApp(`update curing_light_mode set phases = '[]'`)).toBe(noPrivilege);
    expect(await asOwner("delete from curing_light")).toMatch(/_fk$/);
    expect(await asOwner("delete from curing_light_mode")).toBe("light_reading_mode_fk");
  });

  test("has each mode and each place among its modes once", async () => {
    const light = await addLight();
    const mode = (place: number, name: string, phases = "[]") =>
      asApp(
        "insert into curing_light_mode values ($1, $2, $3, $4, $5)",
        ...[it.here.id, light, place, name, phases],
      );
    expect(await mode(2, "Standard")).toBe("curing_light_mode_pk");
    expect(await mode(1, "High")).toBe("curing_light_mode_place_once");
    expect(await mode(2, "")).toBe("curing_light_mode_name_filled");
    expect(await mode(2, "High", '{"seconds": 5}')).toBe("curing_light_mode_phases_listed");
    expect(await mode(2, "High")).toBe(done);
  });
});

/** A light with one mode; gives its id. */
function addLight(of: ScenePractice = it.here): Promise<string> {
  const id = newId();
  return act(it.app, asAssistant(of), async (client) => {
    const light = "insert into curing_light values ($1, $2, $3, '', 80, null, false, now())";
    await client.query(light, [of.id, id, `light ${id}`]);
    await client.query("insert into curing_light_mode values ($1, $2, 1, 'Standard')", [of.id, id]);
    return id;
  });
}

interface Reading {
  id?: string;
  light: string;
  mode?: string;
  distance?: number;
  irradiance?: number;
  /** Minutes from now. */
  at?: number;
  replaces?: string | null;
}
const readLight = (told: Reading) => {
  const { id = newId(), mode = "Standard", distance = 0, irradiance = 1000, at = 0 } = told;
  return asApp(
    `insert into light_reading values ($1, $2, $3, $4, $5, $6, '', '',
       now() + $7 * interval '1 minute', $8, $9, now())`,
    ...[it.here.id, id, told.light, mode, distance, irradiance, at],
    ...[told.replaces ?? null, it.here.assistant],
  );
};

describe("a reading of a light", () => {
  let light: string;
  let first: string;
  beforeEach(async () => {
    light = await addLight();
    first = newId();
    expect(await readLight({ id: first, light })).toBe(done);
  });

  test("is of a mode of the light, in a possible range, and not of the future", async () => {
    expect(await readLight({ light, mode: "Turbo" })).toBe("light_reading_mode_fk");
    const foreign = await addLight(it.there);
    expect(await readLight({ light: foreign })).toBe("light_reading_mode_fk");
    expect(await readLight({ light, distance: -1 })).toBe("light_reading_distance_range");
    expect(await readLight({ light, distance: 301 })).toBe("light_reading_distance_range");
    expect(await readLight({ light, irradiance: -1 })).toBe("light_reading_irradiance_range");
    expect(await readLight({ light, irradiance: 20_001 })).toBe("light_reading_irradiance_range");
    expect(await readLight({ light, at: 1 })).toBe(done);
    expect(await readLight({ light, at: 2 })).toBe("light_reading_not_ahead");
  });

  test("is replaced once, by another of the same light", async () => {
    const itself = newId();
    expect(await readLight({ id: itself, light, replaces: itself })).toBe(
      "light_reading_not_itself",
    );
    const other = await addLight();
    expect(await readLight({ light: other, replaces: first })).toBe("light_reading_replaces_fk");
    expect(await readLight({ light, replaces: newId() })).toBe("light_reading_replaces_fk");
    expect(await readLight({ light, replaces: first })).toBe(done);
    expect(await readLight({ light, replaces: first })).toBe("light_reading_replaced_once");
  });

  test("is replaced by one of two who do it at the same moment", async () => {
    const clients = [await it.connect(), await it.connect()];
    const text = `insert into light_reading values ($1, $2, $3, 'Standard', 0, 900, '', '', now(),
      $4, $5, now())`;
    const refusals = await Promise.all(
      clients.map((client) =>
        refusalOf(
          act(client, asAssistant(it.here), () =>
            client.query(text, [it.here.id, newId(), light, first, it.here.assistant]),
          ),
        ),
      ),
    );
    expect(refusals.sort()).toEqual(["light_reading_replaced_once", done]);
  });
});

describe("a reorder point", () => {
  test.each([
    [0, "product_stock_rule_range"],
    [1, done],
    [100_000, done],
    [100_001, "product_stock_rule_range"],
  ])("of %i uses: %s", async (uses, refusal) => {
    const text = "update product_stock_rule set reorder_uses = $2 where practice_id = $1";
    expect(await asApp(text, it.here.id, uses)).toBe(refusal);
  });

  test("is one for each product, and of a product that is there", async () => {
    const text = "insert into product_stock_rule values ($1, $2, 5)";
    expect(await asApp(text, it.here.id, it.here.product)).toBe("product_stock_rule_pk");
    expect(await asApp(text, it.here.id, newId())).toBe("product_stock_rule_product_fk");
  });
});

describe("a version of a technique", () => {
  const add = (told: { starter?: boolean; by?: string | null; at?: string | null } = {}) => {
    const { starter = false, by = null, at = null } = told;
    const id = newId();
    const insert = `insert into technique (id, organisation_id, key, version, name, visit, steps,
        starter, created_at, confirmed_by, confirmed_at)
      values ($1, $2, $3, 1, 'Sealing', 'sealing', '[]', $4, now(), $5, $6)`;
    const values = [id, it.here.organisation, `key-${id}`, starter, by, at];
    return asApp(insert, ...values).then((refusal) => ({ id, refusal }));
  };
  const confirm = (id: string, by: string | null = it.here.dentist) =>
    asApp("update technique set confirmed_by = $2, confirmed_at = now() where id = $1", id, by);

  test("is confirmed with who and when, and by somebody who is there", async () => {
    const { id, refusal } = await add();
    expect(refusal).toBe(done);
    expect(await confirm(id, null)).toBe("technique_confirmed_whole");
    expect(await confirm(id, newId())).toBe("technique_confirmed_by_fk");
    expect(await confirm(id)).toBe(done);
    const half = await add({ by: it.here.dentist });
    expect(half.refusal).toBe("technique_confirmed_whole");
  });

  test("is not confirmed while it is common practice, nor shipped as confirmed", async () => {
    const starter = await add({ starter: true });
    expect(starter.refusal).toBe(done);
    expect(await confirm(starter.id)).toBe("technique_starter_unconfirmed");
    const shipped = await add({ starter: true, by: it.here.dentist, at: "2026-01-01T00:00:00Z" });
    expect(shipped.refusal).toBe("technique_starter_unconfirmed");
    const mine = `update technique set starter = false where id = '${starter.id}'`;
    expect(await asApp(mine)).toBe(noPrivilege);
  });

  test.each(["steps = '[1]'", "name = 'Another'", "version = 2", "visit = 'bonding'"])(
    "stays as it was made: %s",
    async (change) => {
      const text = `update technique set ${change} where id = '${it.here.technique}'`;
      expect(await asApp(text)).toBe(noPrivilege);
    },
  );

  test("stays, and is not seen by another organisation", async () => {
    const mine = `where id = '${it.here.technique}'`;
    expect(await asApp(`delete from technique ${mine}`)).toBe(noPrivilege);
    const foreign = `update technique set retired = true where id = '${it.there.technique}'`;
    expect(await asApp(foreign)).toBe(done);
    const retired = `technique where id = '${it.there.technique}' and retired`;
    expect(await count(it.owner, retired)).toBe(0);
  });

  test("is made from one that is there", async () => {
    const insert = `insert into technique (id, organisation_id, key, version, name, visit, steps,
        created_at, made_from) values ($1, $2, 'copy', 1, 'Sealing', 'sealing', '[]', now(), $3)`;
    const values = [newId(), it.here.organisation, newId()];
    expect(await asApp(insert, ...values)).toBe("technique_made_from_fk");
    const twice = [newId(), it.here.organisation, it.here.technique];
    expect(await asApp(insert, ...twice)).toBe(done);
    const again = [newId(), it.here.organisation, it.here.technique];
    expect(await asApp(insert, ...again)).toMatch(/^technique_/);
  });
});
