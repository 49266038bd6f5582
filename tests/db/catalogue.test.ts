import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type pg from "pg";
import { openScene, type Scene } from "./scene.ts";

/**
 * Rules that one schema must keep to run on a plain PostgreSQL and, distributed by practice, on a
 * Citus cluster, and rules of who may do what: asked of the catalogue, so that a new table, view or
 * function cannot be forgotten. Source of the cluster's rules: tried on Citus 13.2.2 and 14.0.1.
 */
let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const all = async <Row extends pg.QueryResultRow>(text: string): Promise<Row[]> =>
  (await it.owner.query<Row>(text)).rows;

const practiceTables = `(select c.oid, c.relname, a.attnum from pg_class c
  join pg_attribute a on a.attrelid = c.oid and a.attname = 'practice_id' and not attisdropped
  where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p'))`;

describe("tables of a practice", () => {
  test("are found", async () => {
    const rows = await all<{ relname: string }>(`select relname from ${practiceTables} p`);
    expect(rows.length).toBeGreaterThanOrEqual(20);
  });

  test("have practice_id first in the primary key", async () => {
    const wrong = await all(
      `select p.relname from ${practiceTables} p
       left join pg_constraint k on k.conrelid = p.oid and k.contype = 'p'
       where k.conkey[1] is distinct from p.attnum`,
    );
    expect(wrong).toEqual([]);
  });

  test("have practice_id first in every unique index and exclusion constraint", async () => {
    const wrong = await all(
      `select p.relname, i.indexrelid::regclass::text as index from ${practiceTables} p
       join pg_index i on i.indrelid = p.oid and (i.indisunique or i.indisexclusion)
       where i.indkey[0] <> p.attnum`,
    );
    expect(wrong).toEqual([]);
  });

  test("point to each other by practice_id and the rest of the key, in this order", async () => {
    const keys = await all<{ conname: string; right: boolean }>(
      `select k.conname, k.conkey[1] = p.attnum and k.confkey[1] = q.attnum as right
       from pg_constraint k join ${practiceTables} p on p.oid = k.conrelid
       join ${practiceTables} q on q.oid = k.confrelid where k.contype = 'f'`,
    );
    expect(keys.length).toBeGreaterThan(20);
    expect(keys.filter((key) => !key.right)).toEqual([]);
  });

  test("have policies that compare practice_id with the actor's, without a subquery", async () => {
    const policies = await all<{ tablename: string; qual: string; with_check: string | null }>(
      `select tablename, qual, with_check from pg_policies
       where tablename in (select relname from ${practiceTables} p)`,
    );
    expect(policies.length).toBeGreaterThanOrEqual(20);
    for (const policy of policies) {
      expect(policy).toEqual({
        tablename: policy.tablename,
        qual: "(practice_id = actor_practice())",
        with_check: null,
      });
    }
  });
});

describe("tables of a group", () => {
  const shared = `pg_class c where c.relnamespace = 'public'::regnamespace
    and c.relkind in ('r', 'p')
    and c.oid not in (select oid from ${practiceTables} p)`;

  test("never point to a table of a practice", async () => {
    const wrong = await all(
      `select k.conname from pg_constraint k where k.contype = 'f'
       and k.conrelid in (select c.oid from ${shared})
       and k.confrelid in (select oid from ${practiceTables} p)`,
    );
    expect(wrong).toEqual([]);
  });

  test("have no trigger: a cluster allows none on them", async () => {
    const wrong = await all(
      `select tgname from pg_trigger where not tgisinternal
       and tgrelid in (select c.oid from ${shared})`,
    );
    expect(wrong).toEqual([]);
  });
});

describe("constraints", () => {
  test("never set a key to null or to a default, nor cascade an update", async () => {
    const wrong = await all(
      `select conname from pg_constraint where contype = 'f'
       and connamespace = 'public'::regnamespace
       and (confdeltype in ('n', 'd') or confupdtype <> 'a')`,
    );
    expect(wrong).toEqual([]);
  });

  test("are checked at once: deferred, they report no name on a cluster", async () => {
    const wrong = await all(
      `select conname from pg_constraint
       where connamespace = 'public'::regnamespace and (condeferrable or not convalidated)
       union all select tgname from pg_trigger where tgdeferrable`,
    );
    expect(wrong).toEqual([]);
  });

  test("have short names of our own that end in no number: a shard's number is cut off", async () => {
    const names = await all<{ name: string }>(
      `select conname as name from pg_constraint
         where connamespace = 'public'::regnamespace and contype <> 'n'
           and conrelid <> 'schema_migration'::regclass
       union select indexrelid::regclass::text from pg_index i join pg_class c on c.oid = i.indrelid
         where c.relnamespace = 'public'::regnamespace and c.relname <> 'schema_migration'`,
    );
    expect(names.length).toBeGreaterThan(100);
    const wrong = names.filter(({ name }) => /_\d+$|_(fkey|check|pkey)$/.test(name));
    expect(wrong).toEqual([]);
    expect(names.filter(({ name }) => name.length > 40)).toEqual([]);
  });
});

describe("privileges", () => {
  const appRoles = "(select oid from pg_roles where rolname in ('tubule_app', 'tubule_login'))";

  test("the application's roles own nothing, pass no policy and make nothing", async () => {
    const roles = await all(
      `select rolname, rolsuper, rolbypassrls, rolcreatedb, rolcreaterole, rolreplication,
              rolcanlogin from pg_roles where oid in ${appRoles} order by 1`,
    );
    const powers = {
      rolsuper: false,
      rolbypassrls: false,
      rolcreatedb: false,
      rolcreaterole: false,
      rolreplication: false,
    };
    expect(roles).toEqual([
      { rolname: "tubule_app", ...powers, rolcanlogin: false },
      { rolname: "tubule_login", ...powers, rolcanlogin: true },
    ]);
    const memberships = await all(
      `select roleid::regrole::text as role, admin_option from pg_auth_members
       where member in ${appRoles}`,
    );
    expect(memberships).toEqual([{ role: "tubule_app", admin_option: false }]);
    const belongings = await all(
      `select classid::regclass, objid from pg_shdepend where deptype = 'o'
       and refobjid in ${appRoles}`,
    );
    expect(belongings).toEqual([]);
  });

  test("nothing in the schema is open to everybody", async () => {
    const open = await all(
      `select 'table' as what, c.relname::text as name from pg_class c, aclexplode(c.relacl) a
         where c.relnamespace = 'public'::regnamespace and a.grantee = 0
       union all select 'function', p.oid::regprocedure::text from pg_proc p
         where p.pronamespace = 'public'::regnamespace
           and (p.proacl is null or exists (
             select 1 from aclexplode(p.proacl) a where a.grantee = 0))
       union all select 'schema', n.nspname from pg_namespace n, aclexplode(n.nspacl) a
         where n.nspname = 'public' and a.grantee = 0`,
    );
    expect(open).toEqual([]);
  });

  test("the application truncates nothing and puts no trigger or key on anything", async () => {
    const wrong = await all(
      `select c.relname, privilege from pg_class c,
         unnest(array['truncate', 'references', 'trigger', 'maintain']) privilege
       where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p', 'v')
         and has_table_privilege('tubule_login', c.oid, privilege)`,
    );
    expect(wrong).toEqual([]);
  });

  test("it deletes no more than what is named here", async () => {
    const deletable = await all<{ name: string }>(
      `select relname as name from pg_class
       where relnamespace = 'public'::regnamespace and relkind in ('r', 'p', 'v')
         and has_table_privilege('tubule_login', oid, 'delete') order by 1`,
    );
    expect(deletable.map(({ name }) => name)).toEqual([
      "label_printer",
      "label_sheet",
      "membership",
      "product_stock_rule",
      "sign_in_failure",
      "tray_template",
      "tray_template_product",
      "tray_tooth",
    ]);
  });

  test("it hands no privilege on", async () => {
    const passed = await all(
      `select c.relname from pg_class c, aclexplode(c.relacl) a
       where a.is_grantable and a.grantee = 'tubule_app'::regrole`,
    );
    expect(passed).toEqual([]);
  });
});

describe("functions and views", () => {
  test("a view shows what its reader may see", async () => {
    const views = await all<{ relname: string; invoker: boolean }>(
      `select relname, coalesce('security_invoker=true' = any(reloptions), false) as invoker
       from pg_class where relnamespace = 'public'::regnamespace and relkind in ('v', 'm')`,
    );
    expect(views.length).toBeGreaterThan(0);
    expect(views.filter(({ invoker }) => !invoker)).toEqual([]);
  });

  test("a function with its owner's rights searches ours first and temporary tables last", async () => {
    const definers = await all<{ name: string; path: string | null }>(
      `select p.oid::regprocedure::text as name, array_to_string(p.proconfig, ';') as path
       from pg_proc p where p.pronamespace = 'public'::regnamespace and p.prosecdef`,
    );
    expect(definers.length).toBeGreaterThanOrEqual(10);
    for (const { name, path } of definers) {
      expect([name, path]).toEqual([name, "search_path=pg_catalog, public, pg_temp"]);
    }
  });

  test("every plpgsql function has a fixed search path", async () => {
    const loose = await all(
      `select p.oid::regprocedure::text as name from pg_proc p
       join pg_language l on l.oid = p.prolang and l.lanname = 'plpgsql'
       where p.pronamespace = 'public'::regnamespace
         and coalesce(array_to_string(p.proconfig, ';'), '') !~ '^search_path=pg_catalog'`,
    );
    expect(loose).toEqual([]);
  });

  test("every trigger is enabled", async () => {
    const triggers = await all<{ tgname: string; tgenabled: string }>(
      "select tgname, tgenabled from pg_trigger where not tgisinternal",
    );
    expect(triggers.length).toBeGreaterThanOrEqual(15);
    expect(triggers.filter(({ tgenabled }) => tgenabled !== "O")).toEqual([]);
  });
});
