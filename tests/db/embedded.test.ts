import { existsSync } from "node:fs";
import { chown, cp, readFile, readdir, rm, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, jest, test } from "@jest/globals";
import { readyBinaries } from "../../apps/api/src/db/embedded-binaries.ts";
import { settlePlace } from "../../apps/api/src/db/embedded-files.ts";
import { readLock } from "../../apps/api/src/db/embedded-lock.ts";
import { launchServer } from "../../apps/api/src/db/embedded-server.ts";
import {
  buildStarter,
  cleanUp,
  codeOf,
  endPrograms,
  findPort,
  isRoot,
  makeFolder,
  pidOf,
  query,
  reportOf,
  signalGroup,
  startElsewhere,
  startHere,
  startStranger,
  until,
} from "../helpers/embedded.ts";

jest.setTimeout(60_000);

let starter = "";
/** A data folder for the tests that do not need a new one; its server ends with each test. */
let shared = "";

beforeAll(async () => {
  starter = await buildStarter(join(await makeFolder(), "starter.cjs"));
  shared = join(await makeFolder(), "data");
});
afterEach(endPrograms);
afterAll(cleanUp);

describe("the first start", () => {
  test("makes a database with checksums and all that durability needs", async () => {
    const settings = { fsync: "off", max_connections: "20" };
    const running = await startHere(shared, { durable: true, settings });
    expect(running).toMatchObject({ adopted: false, serverVersion: "18.4" });
    // Where the account cannot enter this folder, a copy of the binaries is mentioned, too.
    expect(running.notes.join("\n")).not.toMatch(/is taken|is kept in/);
    const rows = await query(
      running.url,
      `select name, setting from pg_settings where name in ('fsync', 'full_page_writes',
        'synchronous_commit', 'data_checksums', 'listen_addresses', 'unix_socket_directories',
        'password_encryption', 'server_encoding', 'max_connections', 'port')`,
    );
    expect(Object.fromEntries(rows.map((row) => [row["name"], row["setting"]]))).toEqual({
      fsync: "on",
      full_page_writes: "on",
      synchronous_commit: "on",
      data_checksums: "on",
      listen_addresses: "127.0.0.1",
      unix_socket_directories: "",
      password_encryption: "scram-sha-256",
      server_encoding: "UTF8",
      max_connections: "20",
      port: String(running.port),
    });
    expect(
      await query(
        running.url,
        `select datname::text, datlocprovider::text, datlocale, current_user::text as role
           from pg_database where datname = current_database()`,
      ),
    ).toEqual([
      { datname: "tubule", datlocprovider: "b", datlocale: "C.UTF-8", role: "tubule_owner" },
    ]);
    expect((await readdir(shared)).toSorted()).toEqual(["postgres", "postgres.log"]);
  });

  test("lets nobody in without the password, which only its owner can read", async () => {
    const running = await startHere(shared);
    expect(await query(running.url, "select distinct auth_method from pg_hba_file_rules")).toEqual([
      { auth_method: "scram-sha-256" },
    ]);
    const wrong = running.url.replace(/:[^:@]+@/, ":wrong@");
    expect(await codeOf(query(wrong, "select 1"))).toBe("28P01");
    const file = await stat(join(running.dataFolder, "tubule.password"));
    if (process.platform !== "win32") expect(file.mode & 0o777).toBe(0o600);
    expect(file.uid).toBe((await stat(running.dataFolder)).uid);
  });

  test("is undone by stop, which may be called twice, and what was saved is kept", async () => {
    const first = await startHere(shared);
    await query(first.url, "create table saved as select 7 as seven");
    expect(await first.isRunning()).toBe(true);
    await Promise.all([first.stop(), first.stop()]);
    expect(await first.isRunning()).toBe(false);
    const second = await startHere(shared);
    expect(second.adopted).toBe(false);
    expect(await query(second.url, "select seven from saved")).toEqual([{ seven: 7 }]);
    await first.stop();
    expect(await second.isRunning()).toBe(true);
  });
});

describe("a server that is already there", () => {
  test("is adopted by a second process", async () => {
    const running = await startHere(shared);
    const pid = await pidOf(running.dataFolder);
    const other = await reportOf(startElsewhere(starter, shared));
    expect(other).toMatchObject({ adopted: true, url: running.url });
    expect(other.notes.join()).toContain(`process ${pid}`);
    expect(await pidOf(running.dataFolder)).toBe(pid);
  });

  test("is one for three processes that start at once on an empty folder", async () => {
    const folder = join(await makeFolder(), "data");
    const reports = await Promise.all(
      [1, 2, 3].map(() => reportOf(startElsewhere(starter, folder))),
    );
    expect(reports.filter((report) => report.adopted)).toHaveLength(2);
    expect(new Set(reports.map((report) => report.url)).size).toBe(1);
    expect((await readdir(folder)).toSorted()).toEqual(["postgres", "postgres.log"]);
  });

  test("outlives a killed node and is adopted by the next", async () => {
    const child = startElsewhere(starter, shared);
    const first = await reportOf(child);
    const pid = await pidOf(first.dataFolder);
    await signalGroup(child, "SIGKILL");
    const next = await startHere(shared);
    expect(next).toMatchObject({ adopted: true, port: first.port });
    expect(await pidOf(next.dataFolder)).toBe(pid);
    await next.stop();
    expect(await next.isRunning()).toBe(false);
  });

  test("is refused when it runs without durability and durability is asked for", async () => {
    const running = await startHere(shared);
    expect(await codeOf(startHere(shared, { durable: true }))).toBe("not-durable");
    expect(await running.isRunning()).toBe(true);
  });

  test("does not get the terminal's Ctrl-C", async () => {
    const child = startElsewhere(starter, shared);
    const report = await reportOf(child);
    const pid = await pidOf(report.dataFolder);
    if (process.platform === "linux") {
      const status = await readFile(`/proc/${pid}/stat`, "utf8");
      const [, , group, session] = status.slice(status.lastIndexOf(")") + 2).split(" ");
      expect([group, session]).toEqual([String(pid), String(pid)]);
    }
    // A terminal sends SIGINT to the whole process group in front.
    await signalGroup(child, "SIGINT");
    expect(child.signalCode).toBe("SIGINT");
    expect(await query(report.url, "select 1 as one")).toEqual([{ one: 1 }]);
    expect(await pidOf(report.dataFolder)).toBe(pid);
  });
});

describe("after a crash", () => {
  test("a killed server starts again with everything that was committed", async () => {
    const first = await startHere(shared);
    await query(first.url, "create table kept as select generate_series(1, 1000) as id");
    // A second client keeps a server process busy, which outlives the killed one for a moment.
    const busy = query(first.url, "select pg_sleep(30)").catch(() => []);
    process.kill(await pidOf(first.dataFolder), "SIGKILL");
    const next = await startHere(shared);
    expect(next.adopted).toBe(false);
    expect(await query(next.url, "select count(*)::int as n from kept")).toEqual([{ n: 1000 }]);
    await busy;
  });

  test("a lock file that names another, living program is no obstacle", async () => {
    const first = await startHere(shared);
    const lockFile = join(first.dataFolder, "postmaster.pid");
    const lock = await readFile(lockFile, "utf8");
    await first.stop();
    // Of the server's own user: only such a process looks to PostgreSQL like a server.
    const owner = await stat(first.dataFolder);
    const stranger = startStranger(owner);
    await writeFile(lockFile, lock.replace(/^\d+/, String(stranger.pid)), { mode: 0o600 });
    if (isRoot) await chown(lockFile, owner.uid, owner.gid);
    const next = await startHere(shared);
    expect(next.adopted).toBe(false);
    expect(await next.isRunning()).toBe(true);
    expect(stranger.exitCode).toBeNull();
  });

  test("a lock file that says the same as the one before is not taken for it", async () => {
    // So it is in a container, where the server gets the same process number at each start.
    const folder = await makeFolder();
    const lines = [process.pid, folder, 1, 54329, "", "127.0.0.1", "1 2", "ready   ", ""];
    const file = join(folder, "postmaster.pid");
    await writeFile(file, lines.join("\n"));
    const before = await readLock(folder);
    expect(before).toMatchObject({ pid: process.pid, port: 54329, status: "ready" });
    expect(await readLock(folder)).toEqual(before);
    await rm(file);
    await new Promise((resolve) => setTimeout(resolve, 20));
    await writeFile(file, lines.join("\n"));
    const after = await readLock(folder);
    expect(after).toEqual({ ...before, stamp: after?.stamp });
    expect(after?.stamp).not.toBe(before?.stamp);
  });

  test("an initdb that was killed half-way is done again", async () => {
    const folder = join(await makeFolder(), "data");
    const child = startElsewhere(starter, folder);
    const halfMade = async () => {
      const names = await readdir(folder).catch(() => []);
      const work = names.find((name) => name.startsWith("postgres.new-"));
      return work !== undefined && existsSync(join(folder, work, "cluster", "PG_VERSION"));
    };
    await until(halfMade);
    await signalGroup(child, "SIGKILL");
    expect(existsSync(join(folder, "postgres"))).toBe(false);
    expect(await halfMade()).toBe(true);
    const running = await startHere(folder);
    expect(await running.isRunning()).toBe(true);
    expect((await readdir(folder)).toSorted()).toEqual(["postgres", "postgres.log"]);
  });

  test("a part of a database is refused and left as it is", async () => {
    const running = await startHere(shared);
    const { dataFolder } = running;
    await running.stop();
    const control = join(dataFolder, "global", "pg_control");
    const aside = join(shared, "aside");
    await cp(control, aside);
    await rm(control);
    expect(await codeOf(startHere(shared))).toBe("incomplete-data");
    expect(existsSync(join(dataFolder, "base"))).toBe(true);
    await cp(aside, control);
    const owner = await stat(dataFolder);
    await chown(control, owner.uid, owner.gid);
    expect(await (await startHere(shared)).isRunning()).toBe(true);
  });

  test("a server that is not ready in time is reported with its log and left at work", async () => {
    await (await startHere(shared)).stop();
    const place = await settlePlace(shared);
    const binaries = await readyBinaries({ account: place.account, notes: [] });
    const { port } = await findPort();
    const plan = { place, binaries, port, settings: {}, durable: false, strangerPid: null };
    await expect(launchServer({ ...plan, limitMilliseconds: -1 })).rejects.toMatchObject({
      code: "start-timeout",
      message: expect.stringContaining(place.logFile),
    });
    expect(await startHere(shared)).toMatchObject({ adopted: true, port });
  });
});
