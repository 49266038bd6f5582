import { cp, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import pg from "pg";
import { dumpSchema } from "../../apps/api/src/db/dump-schema.ts";
import { appUrl, migrate } from "../../apps/api/src/db/migrate.ts";
import { refusalOf } from "./acts.ts";

const folder = path.resolve("migrations");
const schemaFile = path.join(folder, "schema.sql");
const made: string[] = [];
const folders: string[] = [];

async function onServer(text: string): Promise<void> {
  await on(process.env["TUBULE_TEST_POSTGRES"]!, (client) => client.query(text));
}

async function on<T>(url: string, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

/** A database with nothing in it. */
async function emptyDatabase(): Promise<string> {
  const name = `empty_${process.pid}_${made.length}`;
  await onServer(`create database ${name} template template0`);
  made.push(name);
  const url = new URL(process.env["TUBULE_TEST_POSTGRES"]!);
  url.pathname = `/${name}`;
  return url.href;
}

/** The project's migrations, with some more. */
async function folderWith(extra: Record<string, string>): Promise<string> {
  const copy = await mkdtemp(path.join(tmpdir(), "tubule-migrations-"));
  folders.push(copy);
  await cp(folder, copy, { recursive: true });
  for (const [name, text] of Object.entries(extra)) await writeFile(path.join(copy, name), text);
  return copy;
}

let files: string[];
let fresh: string;
beforeAll(async () => {
  files = (await readdir(folder)).filter((name) => name !== "schema.sql").sort();
  fresh = await emptyDatabase();
});
afterAll(async () => {
  for (const name of made) await onServer(`drop database if exists ${name} with (force)`);
  for (const each of folders) await rm(each, { recursive: true, force: true });
});

const applied = (url: string) =>
  on(url, async (client) => {
    const { rows } = await client.query<{ name: string }>(
      "select name from schema_migration order by id",
    );
    return rows.map(({ name }) => name.replace(/-\d+$/, ".sql"));
  });

describe("the migrations", () => {
  test("are numbered without a gap, from 0001", () => {
    expect(files.length).toBeGreaterThan(0);
    const numbers = files.map((name) => /^(\d{4})-[a-z0-9-]+\.sql$/.exec(name)?.[1]);
    expect(numbers).toEqual(files.map((_, i) => String(i + 1).padStart(4, "0")));
  });

  test("each say first why they are there, and act on a cluster one shard after the other", async () => {
    for (const file of files) {
      const text = await readFile(path.join(folder, file), "utf8");
      expect([file, text.startsWith("-- ")]).toEqual([file, true]);
      expect([file, /\block\b/i.test(text.split("\n").slice(0, 6).join("\n"))]).toEqual([
        file,
        true,
      ]);
      const makes = /\b(create table|alter table)\b/.test(text);
      const sequential = text.includes("set local citus.multi_shard_modify_mode = 'sequential';");
      expect([file, sequential]).toEqual([file, makes || sequential]);
    }
  });

  test("started eight at once on an empty database all succeed, and run once", async () => {
    const answers = await Promise.all(Array.from({ length: 8 }, () => migrate(fresh, folder)));
    const runs = answers.map((answer) => answer.applied.length).sort((a, b) => a - b);
    expect(runs).toEqual([0, 0, 0, 0, 0, 0, 0, files.length]);
    expect(await applied(fresh)).toEqual(files);
  }, 60_000);

  test("do nothing when they are run again", async () => {
    const before = await on(fresh, dumpSchema);
    expect(await migrate(fresh, folder)).toEqual({ applied: [] });
    expect(await on(fresh, dumpSchema)).toBe(before);
  });

  test("together make what schema.sql says", async () => {
    const dump = await on(fresh, dumpSchema);
    expect(dump.split("\n").length).toBeGreaterThan(500);
    if (process.env["UPDATE_SCHEMA"] === "1") await writeFile(schemaFile, dump);
    const kept = await readFile(schemaFile, "utf8").catch(() => "");
    if (dump === kept) return;
    const [now, then] = [dump.split("\n"), kept.split("\n")];
    const at = now.findIndex((line, i) => line !== then[i]);
    throw new Error(
      `migrations/schema.sql differs from line ${at + 1} on.\n` +
        `  the file:     ${then[at]}\n  the database: ${now[at]}\n` +
        "Write it anew by: UPDATE_SCHEMA=1 npm test -- tests/db/migrations.test.ts",
    );
  });

  test.each([
    "alter table lot alter lot_plain drop not null",
    "alter table lot add column more text",
    "alter table lot alter lot set default ''",
    "alter table movement drop constraint movement_between_places",
    "alter table delivery_line drop constraint delivery_line_lot_fk",
    "drop index movement_by_lot",
    "alter table movement disable trigger movement_append_only",
    "drop trigger movement_no_truncate on movement",
    "alter table lot disable row level security",
    "alter table lot force row level security",
    "alter policy lot_own on lot using (true)",
    "grant delete on lot to tubule_app",
    "grant update (lot) on lot to tubule_app",
    "grant execute on function keep_balance to tubule_app",
    "alter function keep_balance() security invoker",
    "alter function keep_balance() set search_path = public",
    "alter view container_now reset (security_invoker)",
    "create view more as select 1 as one",
  ])("would not match after: %s", async (change) => {
    await on(fresh, async (client) => {
      const before = await dumpSchema(client);
      await client.query("begin");
      await client.query(change);
      expect(await dumpSchema(client)).not.toBe(before);
      await client.query("rollback");
    });
  });

  test("dumped from the template and from a database made in one go are the same", async () => {
    const template = new URL(process.env["TUBULE_TEST_POSTGRES"]!);
    template.pathname = "/tubule_template";
    expect(await on(template.href, dumpSchema)).toBe(await on(fresh, dumpSchema));
  });
});

describe("a migration that fails", () => {
  test("leaves nothing of itself and all before it; mended, it goes on from there", async () => {
    const url = await emptyDatabase();
    const next = `${String(files.length + 1).padStart(4, "0")}-broken.sql`;
    const text = "-- A try.\ncreate table half_made (id uuid);\n";
    const broken = await folderWith({ [next]: `${text}select 1 / 0;\n` });
    await expect(migrate(url, broken)).rejects.toThrow("division by zero");
    expect(await applied(url)).toEqual(files);
    const half = await on(url, (client) =>
      client.query("select to_regclass('half_made') as found"),
    );
    expect(half.rows).toEqual([{ found: null }]);
    const mended = await folderWith({ [next]: text });
    expect((await migrate(url, mended)).applied.length).toBe(1);
    expect(await applied(url)).toEqual([...files, next]);
  }, 60_000);

  test("frees the way for the next one who starts, when its process is killed", async () => {
    const url = await emptyDatabase();
    const next = `${String(files.length + 1).padStart(4, "0")}-slow.sql`;
    const slow = await folderWith({ [next]: "-- A try.\nselect pg_sleep(60);\n" });
    const cut = migrate(url, slow).catch((error: Error) => error);
    const isSleeping = `select pid from pg_stat_activity
      where datname = current_database() and query like '%pg_sleep(60)%'
        and pid <> pg_backend_pid()`;
    await on(url, async (client) => {
      for (let round = 0; round < 500; round++) {
        if ((await client.query(isSleeping)).rows.length > 0) break;
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      await client.query(
        `select pg_terminate_backend(pid) from pg_stat_activity
         where datname = current_database() and pid <> pg_backend_pid()`,
      );
    });
    expect(await cut).toBeInstanceOf(Error);
    expect(await migrate(url, folder)).toEqual({ applied: [] });
    expect(await applied(url)).toEqual(files);
  }, 60_000);
});

describe("in a migrated database the application", () => {
  const attempts: Record<string, string> = {
    "makes no table": "create table mine (id int)",
    "makes no temporary table": "create temporary table mine (id int)",
    "makes no schema": "create schema mine",
    "makes no view": "create view mine as select 1",
    "makes no function": "create function mine() returns int language sql as 'select 1'",
    "makes no type": "create type mine as enum ('a')",
    "makes no extension": "create extension pgcrypto",
    "changes no table": "alter table movement add column mine int",
    "switches no trigger off": "alter table movement disable trigger all",
    "switches no row security off": "alter table movement disable row level security",
    "makes no trigger":
      "create trigger mine before insert on movement for each row execute function refuse_change()",
    "makes no index": "create index mine on movement (note)",
    "makes no policy": "create policy mine on movement using (true)",
    "drops nothing": "drop table movement cascade",
    "takes nothing over": "alter table movement owner to tubule_login",
    "becomes nobody else": "set role tubule_owner",
    "makes no role": "create role mine",
    "does not make itself mighty": "alter role tubule_login superuser",
    "does not pass the triggers by as a replica": "set session_replication_role = 'replica'",
    "runs no program": "copy (select 1) to program 'true'",
    "reads no file": "select pg_read_file('/etc/hostname')",
    "writes no file": "copy (select 1) to '/tmp/tubule-mine'",
    "reads no password": "select rolpassword from pg_authid",
    "does not read the list of migrations": "select * from schema_migration",
    "calls no trigger function by itself": "select keep_balance()",
  };

  test.each(Object.keys(attempts))("%s", async (name) => {
    const refused = await refusalOf(on(appUrl(fresh), (client) => client.query(attempts[name]!)));
    // 0A000: a trigger function is not called so, whoever asks.
    expect(refused).toMatch(name.startsWith("calls") ? /^(42501|0A000)$/ : /^42501$/);
  });

  test("grants itself nothing", async () => {
    await on(appUrl(fresh), async (client) => {
      // PostgreSQL only warns of it.
      await client.query("grant update on movement to tubule_login");
      const { rows } = await client.query(
        "select has_any_column_privilege('movement', 'update') as granted",
      );
      expect(rows).toEqual([{ granted: false }]);
    });
  });

  test("does not read past the policies by switching them off for itself", async () => {
    const read = on(appUrl(fresh), async (client) => {
      await client.query("set row_security = off");
      return client.query("select * from movement");
    });
    await expect(read).rejects.toThrow("query would be affected by row-level security policy");
  });
});
