import type { FileHandle } from "node:fs/promises";
import type { Binaries } from "./embedded-binaries.ts";
import { EmbeddedPostgresError } from "./embedded-error.ts";
import { explainFailure, readRefusal, type Refusal } from "./embedded-failure.ts";
import { lastLines, openLog, readLog, type Place } from "./embedded-files.ts";
import { lookAtHolder, readLock } from "./embedded-lock.ts";
import {
  childEnvironment,
  childOptions,
  pause,
  runProgram,
  startProgram,
  type Finished,
} from "./embedded-run.ts";

export interface LaunchPlan {
  place: Place;
  binaries: Binaries;
  port: number;
  settings: Record<string, string>;
  durable: boolean;
  /** The number in a lock file whose process is surely not PostgreSQL. */
  strangerPid: number | null;
  /** How long recovery may take before the start is reported as failed. */
  limitMilliseconds: number;
}

/** Null: ready. Otherwise the server ended by itself, for this reason. */
export type Launched = null | { refusal: Refusal; error: EmbeddedPostgresError };

/**
 * Starts the server and waits until its lock file says "ready".
 *
 * Elsewhere than on Windows `postgres` is started directly, in its own session: the terminal's
 * Ctrl-C does not reach it, it lives on when node dies, its end is seen at once, and no path
 * passes through a shell. `pg_ctl -w` looks only ten times a second (110 ms here against 30 ms).
 * On Windows `pg_ctl` is needed, because it gives up the administrator's rights, with which
 * PostgreSQL refuses to run. There the server shares `pg_ctl`'s console, which `windowsHide`
 * makes a new one, so that the terminal's Ctrl-C does not reach it either (not run by us).
 */
export async function launchServer(plan: LaunchPlan): Promise<Launched> {
  const log = await openLog(plan.place);
  try {
    const { size } = await log.stat();
    if (process.platform !== "win32") return await launchDirectly(plan, log, size);
    // Closed first: two writers of one file get in each other's way on Windows.
    await log.close();
    return await launchByPgCtl(plan, size);
  } finally {
    await log.close();
  }
}

async function launchDirectly(plan: LaunchPlan, log: FileHandle, size: number): Promise<Launched> {
  const { place, binaries } = plan;
  // In a container that is started again, the server often gets the number that it had before: a
  // lock file that a crash has left would then look like ours, and ready.
  const stale = (await readLock(place.cluster))?.stamp;
  const { child, error } = startProgram(
    binaries.postgres,
    ["-D", place.cluster, ...serverArguments(plan)],
    {
      ...childOptions(place.account),
      env: serverEnvironment(plan),
      detached: true,
      stdio: ["ignore", log.fd, log.fd],
    },
  );
  if (child === null) return readEnd(plan, { exitCode: null, text: "", error }, "");
  let end: { exitCode: number | null; error?: Error } | undefined;
  child.once("error", (cause) => (end ??= { exitCode: null, error: cause }));
  child.once("exit", (exitCode) => (end ??= { exitCode }));
  child.unref();
  const deadline = performance.now() + plan.limitMilliseconds;
  while (end === undefined) {
    const lock = await readLock(place.cluster);
    const own = lock !== null && lock.pid === child.pid && lock.stamp !== stale;
    if (own && lock.status === "ready") return null;
    if (performance.now() > deadline) throw await notReady(plan, size);
    await pause(5);
  }
  const text = await readLog(place.logFile, size);
  return readEnd(plan, { ...end, text }, linesOf(text, child.pid));
}

export async function launchByPgCtl(plan: LaunchPlan, size: number): Promise<Launched> {
  const { place, binaries } = plan;
  // pg_ctl passes the options through a shell: cmd.exe, or /bin/sh where the tests run it.
  const quoted = serverArguments(plan).map((argument) => {
    if (!/["$`\\%]/.test(argument)) return `"${argument}"`;
    throw new EmbeddedPostgresError(
      "start-failed",
      `The setting ${argument} cannot be passed to PostgreSQL on this system.`,
      'Leave out the characters " $ ` \\ and %.',
    );
  });
  const seconds = String(Math.ceil(plan.limitMilliseconds / 1000));
  const started = ["start", "-s", "-w", "-t", seconds, "-D", place.cluster];
  const options = { account: place.account, environment: serverEnvironment(plan) };
  const finished = await runProgram(
    binaries.pgCtl,
    [...started, "-l", place.logFile, "-o", quoted.join(" ")],
    options,
  );
  if (finished.exitCode === 0) return null;
  const lock = await readLock(place.cluster);
  const holder = lock === null ? "gone" : await lookAtHolder(lock.pid, place.cluster);
  const text = await readLog(place.logFile, size);
  const atWork = holder === "ours" || holder === "unclear";
  if (atWork && readRefusal(text) !== "lock") throw await notReady(plan, size);
  return readEnd(plan, { ...finished, text: `${text}\n${finished.text}` }, text);
}

function readEnd(plan: LaunchPlan, end: Finished, ownLines: string): Launched {
  const error = explainFailure("postgres", plan.place.cluster, end);
  return { refusal: readRefusal(ownLines), error };
}

// Two starters write to one log, and only one of them is refused.
function linesOf(log: string, pid: number | undefined): string {
  const own = log.split("\n").filter((line) => line.includes(` [${pid}] `));
  return own.length === 0 ? log : own.join("\n");
}

function serverArguments(plan: LaunchPlan): string[] {
  const durable = plan.durable ? "on" : "off";
  // Later ones win, so the caller cannot weaken the last group; the command line wins over
  // postgresql.conf and ALTER SYSTEM.
  const settings = {
    max_connections: "64",
    timezone: "UTC",
    log_timezone: "UTC",
    ...plan.settings,
    // Sockets are off: no name to get too long (107 bytes), one way in on every system.
    unix_socket_directories: "",
    listen_addresses: "127.0.0.1",
    port: String(plan.port),
    lc_messages: "C",
    logging_collector: "off",
    fsync: durable,
    full_page_writes: durable,
    // Also for tests: off, a killed server would forget what it had acknowledged.
    synchronous_commit: "on",
  };
  return Object.entries(settings).flatMap(([name, value]) => ["-c", `${name}=${value}`]);
}

/**
 * After a restart of the machine the number in a stale lock file may belong to another program.
 * PostgreSQL takes any live process of its own user for a server and would refuse for ever, except
 * for the number in PG_GRANDPARENT_PID, which a launcher uses to name itself. Naming the stranger
 * there leaves the decision to PostgreSQL: it still looks whether the old server's shared memory
 * is in use, and removes the file itself. (Source: CreateLockFile in miscinit.c, from memory;
 * both answers were seen here.)
 */
function serverEnvironment(plan: LaunchPlan): Record<string, string> {
  const environment = childEnvironment();
  if (plan.strangerPid !== null) environment["PG_GRANDPARENT_PID"] = String(plan.strangerPid);
  return environment;
}

async function notReady(plan: LaunchPlan, size: number): Promise<EmbeddedPostgresError> {
  const lines = lastLines(await readLog(plan.place.logFile, size));
  return new EmbeddedPostgresError(
    "start-timeout",
    `PostgreSQL was not ready after ${Math.round(plan.limitMilliseconds / 1000)} s. ` +
      `Its log (${plan.place.logFile}) ends:\n${lines}`,
    // It is left at work: a recovery that is cut short begins again from the start.
    "It is still at work, perhaps repairing after a power cut. Wait some minutes, start again.",
  );
}

/** Asks the server with this number to end, cutting off its clients, and waits for it. */
export async function stopServer(place: Place, binaries: Binaries, pid: number): Promise<void> {
  const stillOurs = async () => {
    const lock = await readLock(place.cluster);
    if (lock?.pid !== pid) return false;
    const holder = await lookAtHolder(pid, place.cluster);
    return holder === "ours" || holder === "unclear";
  };
  if (!(await stillOurs())) return;
  const limit = ["-m", "fast", "-w", "-t", "60"];
  // Detached: a second, impatient Ctrl-C must not end the wait.
  const finished = await runProgram(binaries.pgCtl, ["stop", "-s", "-D", place.cluster, ...limit], {
    account: place.account,
    detached: process.platform !== "win32",
  });
  if (finished.exitCode === 0 || !(await stillOurs())) return;
  throw new EmbeddedPostgresError(
    "stop-timeout",
    `PostgreSQL (process ${pid}) did not stop within a minute: ${finished.text.trim()}`,
    "It will stop when its last work is done. Nothing that was saved is lost.",
  );
}
