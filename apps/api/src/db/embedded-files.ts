// What lies where in the data folder:
//   postgres/                 the cluster, or a link to it where root's own folders hide it
//   postgres/tubule.password  the owner's password, 0600; it stays with its cluster
//   postgres.log              what the server says; postgres.log.1 is the one before
//   postgres.new-<pid>-<id>/  a cluster in the making; left over only when that was interrupted
import { createHash, randomBytes } from "node:crypto";
import { constants } from "node:fs";
import {
  chmod,
  chown,
  mkdir,
  open,
  readFile,
  readdir,
  readlink,
  realpath,
  rename,
  rm,
  stat,
  symlink,
  type FileHandle,
} from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import {
  EmbeddedPostgresError,
  errnoOf,
  explainFileError,
  noPermission,
} from "./embedded-error.ts";
import { runsStill } from "./embedded-lock.ts";
import type { Account } from "./embedded-run.ts";
import { canEnter, chooseAccount, nearestExisting } from "./embedded-user.ts";

/** Where root keeps a cluster whose data folder no other account can enter. */
const elsewhere = "/var/lib/tubule";

export interface Place {
  /** The data folder's real path. */
  folder: string;
  /** The cluster's real path; it need not exist yet. */
  cluster: string;
  logFile: string;
  account: Account | null;
  notes: string[];
}

/** Makes the data folder where it is missing and decides who runs PostgreSQL, and where. */
export async function settlePlace(dataFolder: string): Promise<Place> {
  const wanted = resolve(dataFolder);
  try {
    const account = await chooseAccount(wanted);
    const folder = await makeDataFolder(wanted, account);
    const place = { folder, account, logFile: join(folder, "postgres.log"), notes: [] };
    return await settleCluster({ ...place, cluster: join(folder, "postgres") });
  } catch (error) {
    throw explainFileError(error, wanted);
  }
}

async function makeDataFolder(folder: string, account: Account | null): Promise<string> {
  const above = await nearestExisting(folder);
  if (!(await stat(above)).isDirectory()) throw noPermission(folder, `${above} is not a folder.`);
  const ownedByAccount = account !== null && (await stat(above)).uid === account.uid;
  const missing: string[] = [];
  for (let path = folder; path !== above; path = dirname(path)) missing.unshift(path);
  for (const path of missing) {
    try {
      await mkdir(path, { mode: path === folder ? 0o700 : 0o755 });
    } catch (error) {
      if (errnoOf(error) === "EEXIST") continue;
      throw error;
    }
    if (ownedByAccount) await chown(path, account.uid, account.gid);
    // The umask may have taken more from a new folder than it was given; nobody could pass.
    else if (account !== null && path !== folder) await chmod(path, 0o755);
  }
  const real = await realpath(folder);
  if (account !== null) await letAccountPass(real, account);
  return real;
}

/** Only the data folder itself is opened, only to pass through, and only when it is root's own. */
async function letAccountPass(folder: string, account: Account): Promise<void> {
  if (await canEnter(account, [folder])) return;
  if (!(await canEnter(account, [dirname(folder)]))) return;
  const { uid, gid, mode } = await stat(folder);
  if (uid !== 0 || (gid !== 0 && gid !== account.gid)) return;
  await chown(folder, -1, account.gid);
  await chmod(folder, (mode & 0o707) | 0o010);
}

async function settleCluster(place: Place): Promise<Place> {
  const entry = place.cluster;
  const { account, folder } = place;
  const target = await targetOfLink(entry);
  if (target === null) {
    if (await canEnter(account, [folder])) return { ...place, cluster: await real(entry) };
    if ((await inspectCluster(entry)) !== "absent") throw cannotReach(place);
    const made = join(elsewhere, createHash("sha256").update(folder).digest("hex").slice(0, 12));
    if ((await mkdir(elsewhere, { recursive: true })) !== undefined) await chmod(elsewhere, 0o755);
    if ((await inspectCluster(made)) === "complete") {
      place.notes.push(`An earlier database of ${folder} was found in ${made} and is used again.`);
    }
    // The link comes first: were it second, a crash between the two would hide the cluster.
    await symlink(made, entry).catch((error: unknown) => {
      if (errnoOf(error) !== "EEXIST") throw error;
    });
  }
  const cluster = await real(resolve(folder, (await targetOfLink(entry)) ?? entry));
  if (!(await canEnter(account, [dirname(cluster)]))) throw cannotReach({ ...place, cluster });
  const why =
    account === null
      ? `the data folder's entry "postgres" is a link to it`
      : `PostgreSQL does not run as root, and the account ${account.name} cannot enter ${folder}`;
  place.notes.push(`The database is kept in ${cluster}, because ${why}.`);
  return { ...place, cluster };
}

function cannotReach(place: Place): EmbeddedPostgresError {
  const name = place.account?.name ?? "this account";
  return new EmbeddedPostgresError(
    "no-permission",
    `PostgreSQL runs as ${name}, which cannot enter the folders above ${place.cluster}.`,
    `Move the data folder to a place that ${name} can enter, such as /var/lib, and start again.`,
  );
}

async function targetOfLink(path: string): Promise<string | null> {
  try {
    return await readlink(path);
  } catch (error) {
    if (["EINVAL", "ENOENT", "UNKNOWN"].includes(errnoOf(error))) return null;
    throw error;
  }
}

/** The real path as far as the path exists. */
async function real(path: string): Promise<string> {
  try {
    return await realpath(path);
  } catch (error) {
    if (errnoOf(error) !== "ENOENT") throw error;
    return join(await realpath(dirname(path)), basename(path));
  }
}

export const passwordFile = (cluster: string): string => join(cluster, "tubule.password");

/** A cluster gets its password file last, so that one without it was never finished. */
export async function inspectCluster(
  cluster: string,
): Promise<"absent" | "complete" | "incomplete"> {
  let entries: string[];
  try {
    entries = await readdir(cluster);
  } catch (error) {
    if (errnoOf(error) === "ENOENT") return "absent";
    throw error;
  }
  if (entries.length === 0) return "absent";
  const needed = ["PG_VERSION", "global", "base", "pg_wal", basename(passwordFile(cluster))];
  if (!needed.every((name) => entries.includes(name))) return "incomplete";
  const control = await readdir(join(cluster, "global"));
  return control.includes("pg_control") ? "complete" : "incomplete";
}

/** Throws unless the cluster is whole, ours to run, and of the binaries' own major version. */
export async function checkCluster(place: Place, major: number): Promise<void> {
  const { cluster, account } = place;
  const owner = (await stat(cluster)).uid;
  const us = account?.uid ?? process.geteuid?.();
  if (us !== undefined && owner !== us) {
    throw new EmbeddedPostgresError(
      "wrong-owner",
      `The database in ${cluster} belongs to user ${owner}, and PostgreSQL would run as ${us}.`,
      "Start Tubule as the user who started it first, or give that user's files to this one " +
        `with: chown -R ${us} "${cluster}/"`,
    );
  }
  if ((await inspectCluster(cluster)) !== "complete") {
    throw new EmbeddedPostgresError(
      "incomplete-data",
      `The folder ${cluster} holds only a part of a database.`,
      "If its files were moved, put them back. Otherwise move the folder aside (do not delete " +
        "it), start again, and restore a backup.",
    );
  }
  const found = Number((await readFile(join(cluster, "PG_VERSION"), "utf8")).trim());
  if (found === major) return;
  throw new EmbeddedPostgresError(
    found > major ? "newer-data" : "older-data",
    `The database in ${cluster} was made by PostgreSQL ${found}; this Tubule has ${major}.`,
    found > major
      ? "Start the newer Tubule that made it."
      : "Start the older Tubule that made it, make a backup there, and restore it into a new " +
          "data folder with this one.",
  );
}

/** A folder beside `target` that only `account` can read, named after the process that makes it. */
export async function makeWorkFolder(target: string, account: Account | null): Promise<string> {
  const folder = `${target}.new-${process.pid}-${randomBytes(4).toString("hex")}`;
  await mkdir(folder, { mode: 0o700 });
  if (account !== null) await chown(folder, account.uid, account.gid);
  return folder;
}

/** Removes what an interrupted start left half-made; never what is in place, or still at work. */
export async function removeLeftovers(target: string): Promise<void> {
  const prefix = `${basename(target)}.new-`;
  for (const name of await readdir(dirname(target))) {
    const maker = name.startsWith(prefix)
      ? /^(\d+)-[0-9a-f]{8}$/.exec(name.slice(prefix.length))
      : null;
    if (maker === null || runsStill(Number(maker[1]))) continue;
    const options = { recursive: true, force: true, maxRetries: 3, retryDelay: 50 };
    // A program that outlived its maker may still write there; the next start tries again.
    await rm(join(dirname(target), name), options).catch(() => undefined);
  }
}

/**
 * Renames a finished folder into place. False: another process was first, and its folder stands.
 * On Windows a virus scanner may hold a new file for a moment, hence the repeats.
 */
export async function renameIntoPlace(from: string, to: string): Promise<boolean> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await rename(from, to);
      await syncFolder(dirname(to));
      return true;
    } catch (error) {
      const taken = await readdir(to).then(
        (entries) => entries.length > 0,
        () => false,
      );
      if (taken) return false;
      const passing = ["EBUSY", "EPERM", "EACCES"].includes(errnoOf(error));
      if (process.platform !== "win32" || !passing || attempt === 10) throw error;
      await new Promise((done) => setTimeout(done, 100));
    }
  }
}

/** Makes a rename or a new name in the folder survive a power cut; Windows has no such call. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === "win32") return;
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

export async function readPassword(cluster: string): Promise<string> {
  return (await readFile(passwordFile(cluster), "utf8")).trim();
}

const logLimitBytes = 5_000_000;

/** Opens the server's log for writing; a long one becomes `postgres.log.1` first. */
export async function openLog(place: Place): Promise<FileHandle> {
  const { logFile, account } = place;
  const size = await stat(logFile).then(
    (found) => found.size,
    () => 0,
  );
  if (size > logLimitBytes) await rename(logFile, `${logFile}.1`).catch(() => undefined);
  // Root must not be led by a link into appending to another file.
  const noFollow = process.platform === "win32" ? 0 : constants.O_NOFOLLOW;
  const flags = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | noFollow;
  const handle = await open(logFile, flags, 0o600);
  if (account !== null) await handle.chown(account.uid, account.gid);
  return handle;
}

/** What was added to the log since it had `offset` bytes. */
export async function readLog(logFile: string, offset: number): Promise<string> {
  const bytes = await readFile(logFile);
  return bytes.subarray(Math.min(offset, bytes.length)).toString("utf8");
}

export const lastLines = (text: string): string => text.trim().split("\n").slice(-10).join("\n");
