// What the tests of the PostgreSQL inside share: other processes that start it, and a clean end.
import { spawn, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { chmod, mkdtemp, realpath, readdir, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import pg from "pg";
import { errnoOf } from "../../apps/api/src/db/embedded-error.ts";
import { lookAtHolder, readLock, runsStill } from "../../apps/api/src/db/embedded-lock.ts";
import {
  startEmbeddedPostgres,
  type EmbeddedPostgres,
  type EmbeddedPostgresOptions,
} from "../../apps/api/src/db/embedded.ts";

const project = fileURLToPath(new URL("../../", import.meta.url));
const folders: string[] = [];
const children: ChildProcess[] = [];

export const isRoot = process.geteuid?.() === 0;

/** What another process reports of the server it started or adopted. */
export type Report = Pick<EmbeddedPostgres, "url" | "port" | "dataFolder" | "adopted" | "notes">;

/**
 * Makes one file that starts the server and stays alive: Node 20 cannot run TypeScript itself.
 * The file looks for the binaries from `projectFolder`.
 */
export async function buildStarter(file: string, projectFolder = project): Promise<string> {
  const main = pathToFileURL(join(projectFolder, "main.js")).href;
  await build({
    stdin: {
      contents: `
        import { startEmbeddedPostgres } from "./apps/api/src/db/embedded.ts";
        setInterval(() => undefined, 1000);
        startEmbeddedPostgres(JSON.parse(process.argv[2])).then(
          (running) => console.log(JSON.stringify(running)),
          (error) => console.log(JSON.stringify({ failed: error.message })));`,
      resolveDir: project,
    },
    outfile: file,
    bundle: true,
    platform: "node",
    format: "cjs",
    external: ["pg-native"],
    define: { "import.meta.url": JSON.stringify(main) },
    logLevel: "error",
  });
  return file;
}

/** A folder that any account may pass through; `cleanUp` removes it. */
export async function makeFolder(): Promise<string> {
  const folder = await realpath(await mkdtemp(join(tmpdir(), "tubule-embedded-")));
  await chmod(folder, 0o755);
  folders.push(folder);
  return folder;
}

/** Starts it in this process, on any port and without waiting for the disk. */
export function startHere(
  dataFolder: string,
  options: Partial<EmbeddedPostgresOptions> = {},
): Promise<EmbeddedPostgres> {
  return startEmbeddedPostgres({ dataFolder, usualPort: 0, durable: false, ...options });
}

/** Starts it in another process, which leads a process group of its own. */
export function startElsewhere(starter: string, dataFolder: string): ChildProcess {
  const options = JSON.stringify({ dataFolder, usualPort: 0, durable: false });
  const child = spawn(process.execPath, [starter, options], {
    detached: true,
    // Named, because Jest gives its tests a copy of the environment.
    env: process.env,
    stdio: ["ignore", "pipe", "inherit"],
  });
  children.push(child);
  return child;
}

export async function reportOf(child: ChildProcess): Promise<Report> {
  if (child.stdout === null) throw new Error("the child has no output");
  const [line] = await once(createInterface(child.stdout), "line");
  const report: Report & { failed?: string } = JSON.parse(String(line));
  if (report.failed !== undefined) throw new Error(report.failed);
  return report;
}

/** Signals the child and all that runs in its process group, as a terminal does. */
export async function signalGroup(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const gone = once(child, "exit");
  process.kill(-child.pid, signal);
  await gone;
}

/** Another program of the given user, to be ended by `endPrograms`. */
export function startStranger(owner: { uid: number; gid: number }): ChildProcess {
  const { uid, gid } = owner;
  const child = spawn("sleep", ["60"], {
    detached: true,
    stdio: "ignore",
    ...(isRoot ? { uid, gid } : {}),
  });
  children.push(child);
  return child;
}

export async function query(url: string, text: string): Promise<Record<string, unknown>[]> {
  const client = new pg.Client({ connectionString: url });
  client.on("error", () => undefined);
  await client.connect();
  try {
    return (await client.query<Record<string, unknown>>(text)).rows;
  } finally {
    client.end().catch(() => undefined);
  }
}

export async function pidOf(cluster: string): Promise<number> {
  const lock = await readLock(cluster);
  if (lock === null) throw new Error(`no server in ${cluster}`);
  return lock.pid;
}

export async function until(what: () => Promise<boolean> | boolean): Promise<void> {
  for (let round = 0; !(await what()); round += 1) {
    if (round > 4000) throw new Error("waited too long");
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

/** The code a promise is rejected with; "no error" when it is not. */
export async function codeOf(promise: Promise<unknown>): Promise<unknown> {
  return promise.then(
    () => "no error",
    (error: unknown) => errnoOf(error) || error,
  );
}

/** A port that nothing listens on, or, kept, that this process listens on until it is closed. */
export async function findPort(keep = false): Promise<{ port: number; close: () => void }> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  if (!keep) server.close();
  if (address === null || typeof address === "string") throw new Error("no port");
  return { port: address.port, close: () => server.close() };
}

/** Ends every program that a test started, the servers included; the data stays. */
export async function endPrograms(): Promise<void> {
  for (const child of children.splice(0)) await signalGroup(child, "SIGKILL");
  for (const cluster of await listClusters()) {
    const lock = await readLock(cluster);
    const holder = lock === null ? "gone" : await lookAtHolder(lock.pid, cluster);
    if (lock === null || holder === "gone" || holder === "other") continue;
    process.kill(lock.pid, "SIGQUIT");
    await until(() => !runsStill(lock.pid) || !existsSync(join(cluster, "postmaster.pid")));
  }
}

/** Also removes what the tests of a file have made. */
export async function cleanUp(): Promise<void> {
  await endPrograms();
  for (const path of [...(await listClusters()), ...folders.splice(0)]) {
    await rm(path, { recursive: true, force: true, maxRetries: 5 });
  }
}

async function listClusters(): Promise<string[]> {
  const found: string[] = [];
  for (const folder of folders) {
    for (const name of await readdir(folder)) {
      const cluster = await realpath(join(folder, name, "postgres")).catch(() => null);
      if (cluster !== null) found.push(cluster);
    }
  }
  return found;
}
