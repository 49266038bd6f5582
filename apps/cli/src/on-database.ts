import { existsSync } from "node:fs";
import path from "node:path";
import pg from "pg";
import { readConfig } from "../../api/src/config.ts";
import { openDatabase, type OpenDatabase } from "../../api/src/db/open-database.ts";
import type { Actor } from "../../api/src/http/actor.ts";
import { actorOf, nobody } from "../../api/src/people/begin-session.ts";
import { Refused } from "./usage.ts";

export const root = process.env["TUBULE_ROOT"] ?? process.cwd();
export const migrationsFolder = path.join(root, "migrations");

/**
 * Does some work on the database that the server uses, running or not, and leaves it as it was.
 * Only where `make` says so is one made that is not there yet.
 */
export async function onDatabase<T>(
  work: (database: OpenDatabase) => Promise<T>,
  { make = false } = {},
): Promise<T> {
  const { databaseUrl, dataFolder } = readConfig(process.env);
  if (!databaseUrl && !make && !existsSync(dataFolder)) {
    throw new Refused(
      `There is no database in ${path.resolve(dataFolder)}. Say where it is by DATA_DIR or DATABASE_URL.`,
    );
  }
  const log = () => undefined;
  const given = { databaseUrl, dataFolder, migrationsFolder, serving: false, log };
  const database = await openDatabase(given);
  try {
    return await work(database);
  } finally {
    await database.close();
  }
}

export interface PracticeFound {
  id: string;
  name: string;
  actor: Actor;
}

/** Every practice of the database, each with an actor that may read it. */
export async function listPractices(ownerUrl: string): Promise<PracticeFound[]> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const { rows } = await client.query<{
      practice_id: string;
      organisation_id: string;
      name: string;
      time_zone: string;
      language: Actor["language"];
    }>(
      `select practice_id, organisation_id, name, time_zone, language from practice
       order by created_at, practice_id`,
    );
    return rows.map((row) => ({
      id: row.practice_id,
      name: row.name,
      actor: {
        ...actorOf({
          practiceId: row.practice_id,
          organisationId: row.organisation_id,
          personId: nobody,
          deviceId: null,
        }),
        timeZone: row.time_zone,
        language: row.language,
      },
    }));
  } finally {
    await client.end();
  }
}

/** The practice of that id, or the only one there is. */
export async function choosePractice(
  ownerUrl: string,
  id: string | undefined,
): Promise<PracticeFound> {
  const practices = await listPractices(ownerUrl);
  const one = id === undefined ? practices[0] : practices.find((each) => each.id === id);
  if (!one) throw new Refused("There is no such practice in this database.");
  if (id === undefined && practices.length > 1) {
    const ids = practices.map((each) => `${each.id} ${each.name}`).join("\n");
    throw new Refused(`Several practices are here. Say --practice with one of\n${ids}`);
  }
  return one;
}
