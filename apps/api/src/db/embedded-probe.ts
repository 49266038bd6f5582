import pg from "pg";
import { EmbeddedPostgresError, errnoOf } from "./embedded-error.ts";
import { ownerName } from "./embedded-initdb.ts";

export const databaseName = "tubule";

export interface Door {
  port: number;
  password: string;
}

export interface Answer {
  serverVersion: string;
  dataDirectory: string;
  settings: Record<string, string>;
}

/** What must be on for an acknowledged write to survive a power cut. */
const durableSettings = ["fsync", "full_page_writes", "synchronous_commit", "data_checksums"];

/** Asks the server who it is, and makes the database where it is missing. */
export async function askServer(door: Door): Promise<Answer> {
  try {
    return await withClient(door, databaseName, readAnswer);
  } catch (error) {
    const noDatabase = "3D000";
    if (errnoOf(error) !== noDatabase) throw error;
  }
  await withClient(door, "postgres", async (client) => {
    try {
      await client.query(`create database ${databaseName}`);
    } catch (error) {
      // Another process that adopted the same server was quicker.
      if (!["42P04", "23505"].includes(errnoOf(error))) throw error;
    }
  });
  return withClient(door, databaseName, readAnswer);
}

export async function answers(door: Door): Promise<boolean> {
  return withClient(door, databaseName, (client) => client.query("select 1")).then(
    () => true,
    () => false,
  );
}

/** Throws unless all that durability needs is on. */
export function checkDurability(answer: Answer): void {
  const off = durableSettings.filter((name) => answer.settings[name] !== "on");
  if (off.length === 0) return;
  throw new EmbeddedPostgresError(
    "not-durable",
    `The PostgreSQL inside runs with ${off.join(", ")} off: a power cut could lose saved work.`,
    "Stop that server and let Tubule start it. If data_checksums is named, restore a backup " +
      "into a new data folder.",
  );
}

async function readAnswer(client: pg.Client): Promise<Answer> {
  const { rows } = await client.query<{ name: string; setting: string }>(
    "select name, setting from pg_settings where name = any($1)",
    [[...durableSettings, "server_version", "data_directory"]],
  );
  const settings = Object.fromEntries(rows.map((row) => [row.name, row.setting]));
  const { server_version: serverVersion = "", data_directory: dataDirectory = "" } = settings;
  return { serverVersion, dataDirectory, settings };
}

async function withClient<T>(
  door: Door,
  database: string,
  use: (client: pg.Client) => Promise<T>,
): Promise<T> {
  const client = new pg.Client({
    host: "127.0.0.1",
    port: door.port,
    user: ownerName,
    password: door.password,
    database,
    ssl: false,
    connectionTimeoutMillis: 3000,
    query_timeout: 60_000,
  });
  // A server that goes away while we ask rejects the query; the event alone would end node.
  client.on("error", () => undefined);
  try {
    await client.connect();
    const result = await use(client);
    await client.end();
    return result;
  } catch (error) {
    // Not awaited: a server that hangs does not say goodbye either.
    client.end().catch(() => undefined);
    throw error;
  }
}
