/** A PostgreSQL of the bench's own, migrated and with the demonstration in it. */
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { makeApp } from "../../apps/api/src/app.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { startEmbeddedPostgres } from "../../apps/api/src/db/embedded.ts";
import { appUrl, migrate } from "../../apps/api/src/db/migrate.ts";
import { seedDemo } from "../../apps/api/src/demo/seed-demo.ts";

export interface BenchDatabase {
  ownerUrl: string;
  appUrl: string;
  owner: pg.Client;
}

export async function withBenchDatabase(
  work: (database: BenchDatabase) => Promise<void>,
): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "tubule-bench-"));
  // The account that runs PostgreSQL must be able to pass through it.
  chmodSync(folder, 0o755);
  const server = await startEmbeddedPostgres({
    dataFolder: path.join(folder, "data"),
    usualPort: 0,
    durable: false,
  });
  const owner = new pg.Client({ connectionString: server.url });
  try {
    await migrate(server.url, path.resolve("migrations"));
    await owner.connect();
    const app = await makeApp({ db: await connect(appUrl(server.url)) });
    await seedDemo(app, { now: new Date(), timeZone: "Europe/Berlin" });
    await app.close();
    await work({ ownerUrl: server.url, appUrl: appUrl(server.url), owner });
  } finally {
    await owner.end();
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
}
