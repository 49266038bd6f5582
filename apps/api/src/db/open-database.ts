import type { DataSource } from "typeorm";
import { connect } from "./data-source.ts";
import { startEmbeddedPostgres, type EmbeddedPostgres } from "./embedded.ts";
import { appUrl, migrate } from "./migrate.ts";
import { StartRefused } from "../refused.ts";
import { takeServerLock, type ServerLock } from "./server-lock.ts";

export interface DatabaseOptions {
  databaseUrl: string | undefined;
  dataFolder: string;
  migrationsFolder: string;
  /** For the one server: refuses a second one, and brings the database back when it dies. */
  serving: boolean;
  log: (line: string) => void;
}

export interface OpenDatabase {
  db: DataSource;
  ownerUrl: string;
  notes: string[];
  announce(address: string): Promise<void>;
  /** Ends the connections, then, where it is ours, the database. */
  close(): Promise<void>;
}

/** Opens the database, brings its schema up to date and connects as the application. */
export async function openDatabase(options: DatabaseOptions): Promise<OpenDatabase> {
  const { databaseUrl, log } = options;
  const inside = databaseUrl
    ? undefined
    : await startEmbeddedPostgres({ dataFolder: options.dataFolder, log });
  const ownerUrl = databaseUrl ?? inside!.url;
  const watched = inside && options.serving ? await watch(inside, options) : undefined;
  try {
    const { applied } = await migrate(ownerUrl, options.migrationsFolder);
    if (applied.length > 0) log(`Schema brought up to date (${applied.length} steps)`);
    const db = await connect(appUrl(ownerUrl));
    return {
      db,
      ownerUrl,
      notes: inside?.notes ?? [],
      announce: async (address) => watched?.announce(address),
      close: async () => {
        if (db.isInitialized) await db.destroy();
        await watched?.release();
        await watched?.current().stop();
        if (!watched && inside && !inside.adopted) await inside.stop();
      },
    };
  } catch (error) {
    await watched?.release();
    if (inside && !inside.adopted) await inside.stop();
    throw error;
  }
}

interface Watched {
  announce(address: string): Promise<void>;
  release(): Promise<void>;
  current(): EmbeddedPostgres;
}

/** Holds the server's lock; when its connection drops, the database died: start it again. */
async function watch(first: EmbeddedPostgres, options: DatabaseOptions): Promise<Watched> {
  const { dataFolder, log } = options;
  let inside = first;
  let address = "";
  let lock = await lockOrRefuse(inside);
  let ending = false;
  let reviving = false;
  const arm = () => lock.onLost(() => void revive());
  async function revive(): Promise<void> {
    // It may die again before it is all back: the loop that is at it goes on.
    if (reviving) return;
    reviving = true;
    log("The database stopped. Starting it again");
    while (!ending) {
      try {
        inside = await startEmbeddedPostgres({ dataFolder, usualPort: first.port, log });
        if (inside.port !== first.port) {
          // Our connections know the old port alone. What another command has started, it stops.
          if (!inside.adopted) await inside.stop();
          throw new Error(`port ${first.port} is taken`);
        }
        lock = await lockOrRefuse(inside);
        arm();
        await lock.announce(address);
        reviving = false;
        return log("The database is back");
      } catch (error) {
        log(`The database does not start: ${(error as Error).message}. Trying again in 2 s`);
        await new Promise((resolve) => setTimeout(resolve, 2_000));
      }
    }
  }
  arm();
  return {
    announce: (told) => {
      address = told;
      return lock.announce(told);
    },
    release: () => {
      ending = true;
      return lock.release();
    },
    current: () => inside,
  };
}

async function lockOrRefuse(inside: EmbeddedPostgres): Promise<ServerLock> {
  const outcome = await takeServerLock(inside.url);
  if ("lock" in outcome) return outcome.lock;
  throw new StartRefused(
    `Tubule is already running on this data folder, at ${outcome.heldBy}. ` +
      "Open that address, or stop it first (Ctrl-C where it runs).",
  );
}
