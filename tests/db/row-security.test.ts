import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import pg from "pg";
import { act, asDentist, count, refusalOf, type Acting, type ScenePractice } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

/** Tables without row security, and why. */
const open = new Map([["schema_migration", "TypeORM's list of applied files; no privilege on it"]]);
/** Tables that hold nothing of a practice, and are shared. */
const shared = new Map([
  ["sign_in_failure", "counted before anybody is known; holds no more than a name that was tried"],
]);

interface Table {
  name: string;
  secured: boolean;
  columns: string[];
  /** The column that says whose row it is. */
  by: "practice_id" | "organisation_id" | "id" | null;
}

let it: Scene;
let tables: Table[];
/** Those that belong to a practice or an organisation. */
let owned: (Table & { by: string })[];

beforeAll(async () => {
  it = await openScene();
  const { rows } = await it.owner.query<Omit<Table, "by">>(
    `select c.relname as name, c.relrowsecurity as secured,
            array_agg(a.attname::text order by a.attnum)
              filter (where a.attgenerated = '') as columns
     from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not attisdropped
     where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
     group by c.oid order by c.relname`,
  );
  tables = rows.map((table) => ({
    ...table,
    by:
      (["practice_id", "organisation_id"] as const).find((each) => table.columns.includes(each)) ??
      (table.name === "organisation" ? "id" : null),
  }));
  owned = tables.filter((table): table is Table & { by: "id" } => table.by !== null);
});
afterAll(() => it.close());

const idOf = (table: { by: string | null }, practice: ScenePractice) =>
  table.by === "practice_id" ? practice.id : practice.organisation;

test("the catalogue was found, with every table of the schema", () => {
  expect(tables.length).toBeGreaterThanOrEqual(30);
  expect(owned.length).toBe(tables.length - open.size - shared.size);
});

test("row security is on for every table but those that are named here", () => {
  const without = tables.filter(({ secured }) => !secured).map(({ name }) => name);
  expect(without).toEqual([...open.keys()]);
  const nobodys = tables.filter(({ secured, by }) => secured && by === null);
  expect(nobodys.map(({ name }) => name)).toEqual([...shared.keys()]);
});

test("each of the two practices has rows in each table, so that an empty answer means something", async () => {
  for (const table of owned) {
    for (const practice of [it.here, it.there]) {
      const found = await count(it.owner, `${table.name} where ${table.by} = $1`, [
        idOf(table, practice),
      ]);
      // A new table needs a row in `scene.ts`.
      expect([table.name, found > 0]).toEqual([table.name, true]);
    }
  }
});

/** Tables that the application may not even read. */
async function unreadable(): Promise<string[]> {
  const { rows } = await it.owner.query<{ name: string }>(
    `select relname as name from pg_class
     where relnamespace = 'public'::regnamespace and relkind in ('r', 'p')
       and not has_table_privilege('tubule_login', oid, 'select') order by 1`,
  );
  return rows.map(({ name }) => name);
}

describe("reading", () => {
  test("finds nothing in any table while nobody acts, on a fresh and on a used connection", async () => {
    const closed = await unreadable();
    expect(closed).toEqual(["idempotency_key", "schema_migration"]);
    const fresh = await it.connect();
    const used = await it.connect();
    await act(used, asDentist(it.here), async () => undefined);
    for (const { name } of owned.filter((table) => !closed.includes(table.name))) {
      for (const client of [fresh, used]) {
        expect([name, await count(client, name)]).toEqual([name, 0]);
      }
    }
  });

  test("finds the actor's own rows and no others, whatever it asks for", async () => {
    const closed = await unreadable();
    for (const table of owned.filter(({ name }) => !closed.includes(name))) {
      const { name, by } = table;
      await act(it.app, asDentist(it.here), async (client) => {
        const own = await count(client, `${name} where ${by} = $1`, [idOf(table, it.here)]);
        expect([name, own > 0]).toEqual([name, true]);
        expect([name, await count(client, name)]).toEqual([name, own]);
        const other = await count(client, `${name} where ${by} = $1 or true`, [
          idOf(table, it.there),
        ]);
        expect([name, other]).toEqual([name, own]);
      });
    }
  });

  test("through a view finds the actor's own rows alone", async () => {
    const { rows } = await it.owner.query<{ name: string }>(
      "select viewname as name from pg_views where schemaname = 'public'",
    );
    expect(rows.length).toBeGreaterThan(0);
    for (const { name } of rows) {
      expect([name, await count(it.app, name)]).toEqual([name, 0]);
      await act(it.app, asDentist(it.here), async (client) => {
        expect(await count(client, name)).toBeGreaterThan(0);
        const foreign = `${name} where practice_id <> $1`;
        expect([name, await count(client, foreign, [it.here.id])]).toEqual([name, 0]);
      });
    }
  });

  test("mixes nothing up in 1,000 transactions of two practices on a pool of two", async () => {
    const pool = new pg.Pool({ connectionString: it.database.appUrl, max: 2 });
    let mixed = 0;
    try {
      await Promise.all(
        Array.from({ length: 1_000 }, async (_, i) => {
          const practice = i % 2 === 0 ? it.here : it.there;
          const client = await pool.connect();
          try {
            const rows = await act(client as unknown as pg.Client, asDentist(practice), (each) =>
              each.query<{ practice_id: string }>("select practice_id from lot"),
            );
            if (rows.rows.length === 0) mixed += 1;
            mixed += rows.rows.filter((row) => row.practice_id !== practice.id).length;
          } finally {
            client.release();
          }
        }),
      );
    } finally {
      await pool.end();
    }
    expect(mixed).toBe(0);
  });
});

describe("writing", () => {
  test("a row for another practice is refused in every table the application writes", async () => {
    let tried = 0;
    for (const table of owned) {
      const { name, by, columns } = table;
      const { rows } = await it.owner.query<{ row: object; may: boolean; person: string }>(
        `select to_jsonb(t) as row, has_table_privilege('tubule_login', $2, 'insert') as may,
                coalesce(to_jsonb(t) ->> 'person_id', $3) as person
         from ${name} t where ${by} = $1 order by to_jsonb(t) ->> 'state',
           to_jsonb(t) ->> 'code' desc,
           coalesce(to_jsonb(t) ->> 'record_id' = $4, false) desc limit 1`,
        [idOf(table, it.there), name, it.there.dentist, it.there.draft],
      );
      const { row, may, person } = rows[0]!;
      // The person is the one that the row names, so that only the practice is wrong.
      const forger: Acting = { practice: it.here, person };
      const list = columns.map((each) => `"${each}"`).join(", ");
      const forged = `insert into ${name} (${list})
        select ${list} from jsonb_populate_record(null::public.${name}, $1)`;
      const refused = await act(it.app, forger, (client) => client.query(forged, [row])).catch(
        (error: Error) => error.message,
      );
      const why = may ? "new row violates row-level security policy" : "permission denied";
      expect([name, refused]).toEqual([name, expect.stringContaining(why)]);
      if (may) tried += 1;
    }
    expect(tried).toBeGreaterThanOrEqual(20);
  });

  test("another practice's rows are not there to be changed or deleted", async () => {
    const { rows } = await it.owner.query<{ name: string; column: string }>(
      `select c.relname as name, min(a.attname::text) as column
       from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attnum > 0
         and not a.attisdropped
       where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'
         and has_column_privilege('tubule_login', c.oid, a.attnum, 'update')
       group by c.relname order by 1`,
    );
    expect(rows.length).toBeGreaterThanOrEqual(8);
    for (const { name, column } of rows) {
      const table = owned.find((each) => each.name === name)!;
      const touched = await act(it.app, asDentist(it.here), (client) =>
        client.query(`update ${name} set ${column} = ${column} where ${table.by} = $1`, [
          idOf(table, it.there),
        ]),
      );
      expect([name, touched.rowCount]).toEqual([name, 0]);
    }
    const dismissed = await act(it.app, asDentist(it.here), (client) =>
      client.query("delete from membership where practice_id = $1", [it.there.id]),
    );
    expect(dismissed.rowCount).toBe(0);
  });

  test("own rows are not given away to another organisation", async () => {
    const given = act(it.app, asDentist(it.here), (client) =>
      client.query("update product set organisation_id = $1", [it.there.organisation]),
    );
    expect(await refusalOf(given)).toBe("42501");
  });

  test("an audit entry is written for the actor's own practice and in the actor's name", async () => {
    const { here, there } = it;
    const append = (practice: string, person: string | null) =>
      refusalOf(
        act(it.app, asDentist(here), (client) =>
          client.query("select append_audit($1, $2, null, now(), 'a', 'b', '{}')", [
            practice,
            person,
          ]),
        ),
      );
    expect(await append(there.id, here.dentist)).toBe("42501");
    expect(await append(here.id, here.assistant)).toBe("42501");
    expect(await append(here.id, null)).toBe("42501");
    expect(await append(here.id, here.dentist)).toBe("not refused");
  });

  test("the kept answer of a submission is neither another practice's nor given twice", async () => {
    const { here, there } = it;
    const finish = (client: pg.Client, of: ScenePractice, answer: string) =>
      client.query("select finish_command($1, $2, null, now(), '[]', $3, 201, $4)", [
        ...[of.id, of.dentist, `key-${of.id.slice(0, 8)}`, answer],
      ]);
    const forged = act(it.app, asDentist(here), (client) => finish(client, there, "forged"));
    expect(await refusalOf(forged)).toBe("42501");
    await act(it.app, asDentist(here), (client) => finish(client, here, "first"));
    await act(it.app, asDentist(here), (client) => finish(client, here, "second"));
    const { rows } = await it.owner.query<{ answer: string | null }>(
      "select answer from idempotency_key where practice_id = any($1) order by answer",
      [[here.id, there.id]],
    );
    expect(rows.map(({ answer }) => answer)).toEqual(["first", null]);
  });
});
