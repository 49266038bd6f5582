/**
 * One PostgreSQL for the whole test run, with a migrated template in it. Bundled and started by
 * `run-jest.mjs`, since it must be up before Jest and end after it.
 */
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { startEmbeddedPostgres } from "../../apps/api/src/db/embedded.ts";
import { migrate } from "../../apps/api/src/db/migrate.ts";

export const template = "tubule_template";

export async function startTestServer(): Promise<{ url: string; stop: () => Promise<void> }> {
  const folder = mkdtempSync(path.join(tmpdir(), "tubule-test-"));
  // The account that runs PostgreSQL must be able to pass through it.
  chmodSync(folder, 0o755);
  const server = await startEmbeddedPostgres({
    dataFolder: path.join(folder, "data"),
    usualPort: 0,
    // What is thrown away at the end need not reach the disk; crash tests start their own server.
    durable: false,
    settings: { max_connections: "200" },
  });
  const client = new pg.Client({ connectionString: server.url });
  await client.connect();
  await client.query(`create database ${template}`);
  await client.end();
  const url = new URL(server.url);
  url.pathname = `/${template}`;
  await migrate(url.href, path.resolve("migrations"));
  return {
    url: server.url,
    stop: async () => {
      await server.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
