import { readFile, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { EmbeddedPostgresError, errnoOf } from "./embedded-error.ts";
import { runProgram, type Account } from "./embedded-run.ts";

/**
 * PostgreSQL refuses to run as root. When Tubule does, this chooses the account for it: the owner
 * of a cluster that is already there, else the owner of the data folder or of the nearest folder
 * above it, else `postgres`, else `nobody`. Null: run as ourselves.
 */
export async function chooseAccount(dataFolder: string): Promise<Account | null> {
  if (process.geteuid?.() !== 0) return null;
  const accounts = await readAccounts();
  const cluster = join(dataFolder, "postgres");
  const version = await ownerOf(join(cluster, "PG_VERSION"));
  if (version !== null) return ownerOfCluster(cluster, version, accounts);

  const owner = await ownerOf(await nearestExisting(dataFolder));
  const account =
    (owner !== null && owner.uid !== 0 ? await accountOf(owner.uid, accounts) : undefined) ??
    accounts.find((candidate) => candidate.name === "postgres" && candidate.uid !== 0) ??
    accounts.find((candidate) => candidate.name === "nobody" && candidate.uid !== 0);
  if (account !== undefined) return account;
  throw new EmbeddedPostgresError(
    "no-account",
    "PostgreSQL does not run as root, and there is no other account to run it under.",
    "Start Tubule as an ordinary user, or create an account named postgres.",
  );
}

/** Tells by asking the system itself, so that groups and access lists count, too. */
export async function canEnter(account: Account | null, paths: string[]): Promise<boolean> {
  if (account === null) return true;
  const script = 'for path do test -x "$path" || exit 1; done';
  const finished = await runProgram("/bin/sh", ["-c", script, "sh", ...paths], { account });
  if (finished.error !== undefined) {
    throw new EmbeddedPostgresError(
      "no-account",
      `No program could be started as ${account.name}: ${finished.error.message}`,
      "Start Tubule as an ordinary user, or set DATABASE_URL to a PostgreSQL of your own.",
    );
  }
  return finished.exitCode === 0;
}

/** The folder itself where it exists, else the nearest one above it that does. */
export async function nearestExisting(folder: string): Promise<string> {
  for (let path = folder; ; path = dirname(path)) {
    if ((await ownerOf(path)) !== null || path === dirname(path)) return path;
  }
}

interface Owner {
  uid: number;
  gid: number;
}

async function ownerOf(path: string): Promise<Owner | null> {
  try {
    const { uid, gid } = await stat(path);
    return { uid, gid };
  } catch (error) {
    if (errnoOf(error) === "ENOENT" || errnoOf(error) === "ENOTDIR") return null;
    throw error;
  }
}

function ownerOfCluster(cluster: string, owner: Owner, accounts: Account[]): Account {
  if (owner.uid === 0) {
    throw new EmbeddedPostgresError(
      "wrong-owner",
      `The database in ${cluster} belongs to root, and PostgreSQL does not run as root.`,
      `Give it back to the account it had, for example: chown -R postgres: "${cluster}/"`,
    );
  }
  // In a container the number may have no name; PostgreSQL needs none once the cluster is made.
  return (
    accounts.find((account) => account.uid === owner.uid) ?? {
      name: `user ${owner.uid}`,
      uid: owner.uid,
      gid: owner.gid,
    }
  );
}

async function readAccounts(): Promise<Account[]> {
  const text = await readFile("/etc/passwd", "utf8");
  return text.split("\n").flatMap((line) => {
    const [name = "", , uid = "", gid = ""] = line.split(":");
    // macOS writes nobody as -2, which is 4294967294 everywhere else.
    const numbers = { uid: Number(uid) >>> 0, gid: Number(gid) >>> 0 };
    return name === "" || uid === "" || name.startsWith("#") ? [] : [{ name, ...numbers }];
  });
}

async function accountOf(uid: number, accounts: Account[]): Promise<Account | undefined> {
  const known = accounts.find((account) => account.uid === uid);
  if (known !== undefined || process.platform !== "darwin") return known;
  // People's accounts on macOS are not in /etc/passwd; `id` asks the directory service.
  const group = await runProgram("/usr/bin/id", ["-g", String(uid)], { account: null });
  if (group.exitCode !== 0) return undefined;
  return { name: `user ${uid}`, uid, gid: Number(group.text.trim()) };
}
