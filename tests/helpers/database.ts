/** A database of its own for a test file, cloned from the migrated template. */
import pg from "pg";
import { appUrl } from "../../apps/api/src/db/migrate.ts";

const template = "tubule_template";
let made = 0;

export interface TestDatabase {
  /** As the superuser that owns the tables. */
  ownerUrl: string;
  /** As the application: no ownership, row security on. */
  appUrl: string;
  drop(): Promise<void>;
}

async function onServer(text: string): Promise<void> {
  const url = process.env["TUBULE_TEST_POSTGRES"];
  if (!url) throw new Error("Run tests by `npm test`: it starts their PostgreSQL.");
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(text);
  } finally {
    await client.end();
  }
}

export async function cloneDatabase(): Promise<TestDatabase> {
  const name = `test_${process.pid}_${Date.now().toString(36)}_${(made += 1)}`;
  await onServer(`create database ${name} template ${template}`);
  const url = new URL(process.env["TUBULE_TEST_POSTGRES"]!);
  url.pathname = `/${name}`;
  return {
    ownerUrl: url.href,
    appUrl: appUrl(url.href),
    drop: () => onServer(`drop database ${name} with (force)`),
  };
}

/** One statement as the owner, who passes row security: to look behind, or to attack. */
export async function asOwner<Row extends pg.QueryResultRow>(
  database: TestDatabase,
  text: string,
  values: unknown[] = [],
): Promise<Row[]> {
  const client = new pg.Client({ connectionString: database.ownerUrl });
  await client.connect();
  try {
    return (await client.query<Row>(text, values)).rows;
  } finally {
    await client.end();
  }
}
