import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import pg from "pg";
import { StartRefused } from "../refused.ts";
import { DataSource, type MigrationInterface, type QueryRunner } from "typeorm";

/** Each `NNNN-what-changes.sql` as a TypeORM migration, run in one transaction. */
async function migrationsIn(folder: string): Promise<(new () => MigrationInterface)[]> {
  const files = (await readdir(folder)).filter((name) => /^\d{4}-.*\.sql$/.test(name)).sort();
  return Promise.all(
    files.map(async (file) => {
      const sql = await readFile(path.join(folder, file), "utf8");
      return class implements MigrationInterface {
        // TypeORM wants a time stamp at the end of the name and orders by it.
        name = `${file.replace(/\.sql$/, "")}-${1_700_000_000_000 + Number(file.slice(0, 4))}`;
        async up(runner: QueryRunner): Promise<void> {
          await runner.query(sql);
        }
        async down(): Promise<void> {
          throw new Error("Migrations go forward only.");
        }
      };
    }),
  );
}

// Any number will do, so long as it is always the same one.
const lockNumber = 7_284_117;
export const appRole = "tubule_login";

/** The application's password follows from the owner's: nothing to store, nothing to hand out. */
export function appUrl(ownerUrl: string): string {
  const url = new URL(ownerUrl);
  const password = createHash("sha256").update(`tubule app\n${url.password}`).digest("base64url");
  url.username = appRole;
  url.password = password;
  return url.href;
}

/**
 * Brings the database of `ownerUrl` to the newest schema and makes the role the application signs
 * in with. Safe to run from several processes at once: TypeORM takes no lock, so we take one.
 */
export async function migrate(ownerUrl: string, folder: string): Promise<{ applied: string[] }> {
  const guard = new pg.Client({ connectionString: ownerUrl, connectionTimeoutMillis: 10_000 });
  // When the database dies, whatever is under way fails by itself.
  guard.on("error", () => undefined);
  await guard.connect().catch((error: Error) => {
    const { host } = new URL(ownerUrl);
    throw new StartRefused(
      `The database at ${host} cannot be opened: ${error.message}. Check DATABASE_URL and the server.`,
    );
  });
  try {
    await guard.query("select pg_advisory_lock($1)", [lockNumber]);
    const source = new DataSource({
      type: "postgres",
      url: ownerUrl,
      migrations: await migrationsIn(folder),
      migrationsTransactionMode: "each",
      migrationsTableName: "schema_migration",
      logging: false,
      poolSize: 2,
    });
    await source.initialize();
    try {
      const applied = await source.runMigrations();
      await grantLogin(guard, ownerUrl).catch(explainLogin);
      return { applied: applied.map((migration) => migration.name) };
    } finally {
      await source.destroy();
    }
  } finally {
    await guard.end();
  }
}

/** Takes away all that migrations made, with what is in it; the next `migrate` begins anew. */
export async function clearSchema(ownerUrl: string): Promise<void> {
  const owner = new pg.Client({ connectionString: ownerUrl, connectionTimeoutMillis: 10_000 });
  await owner.connect();
  try {
    await owner.query("drop schema public cascade; create schema public");
  } finally {
    await owner.end();
  }
}

function explainLogin(error: Error & { code?: string }): never {
  if (error.code !== "42501") throw error;
  throw new StartRefused(
    `The role of DATABASE_URL may not make or change the role ${appRole}. Give it CREATEROLE; where ` +
      "another installation on that server made the role, use its owner or a server of your own.",
  );
}

async function grantLogin(owner: pg.Client, ownerUrl: string): Promise<void> {
  const password = new URL(appUrl(ownerUrl)).password;
  const { rows } = await owner.query("select 1 from pg_roles where rolname = $1", [appRole]);
  if (rows.length === 0) {
    await owner.query(`create role ${appRole} login nosuperuser nobypassrls in role tubule_app`);
  }
  await owner.query(`alter role ${appRole} password '${password}'`);
  // Not copied with a template and not part of a schema, so no migration can hold it.
  await owner.query(`do $$ begin
    execute format('revoke create, temporary on database %I from public', current_database());
  end $$`);
}
