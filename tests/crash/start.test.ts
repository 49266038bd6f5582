import { readFile, stat } from "node:fs/promises";
import { createServer, type Server } from "node:net";
import { networkInterfaces } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { findPort, until } from "../helpers/embedded.ts";
import { runsStill } from "../../apps/api/src/db/embedded-lock.ts";
import {
  endEverything,
  newDataFolder,
  postmasterOf,
  Program,
  runProgram,
  startServer,
} from "./server-process.ts";

afterAll(endEverything, 30_000);

async function ask(address: string, about: string, body?: object) {
  const [method, where] = about.split(" ") as [string, string];
  const response = await fetch(`${address}/api/v1${where}`, {
    method,
    headers: { "content-type": "application/json", "idempotency-key": newId() },
    ...(body ? { body: JSON.stringify(body) } : {}),
    signal: AbortSignal.timeout(20_000),
  });
  const read = (await response.json()) as { type?: string };
  return { status: response.status, problem: read.type?.replace("/problems/", ""), body: read };
}
const demonstration = { signInName: "assistant", password: "demo-assistant" };

/** Whether a connection is accepted there. */
const accepts = (host: string, port: number): Promise<boolean> =>
  fetch(`http://${host}:${port}/api/v1/health`, { signal: AbortSignal.timeout(3_000) }).then(
    () => true,
    () => false,
  );

/** The machine's own address that other machines would use, if it has one. */
const ownAddress = Object.values(networkInterfaces())
  .flatMap((each) => each ?? [])
  .find(({ family, internal }) => family === "IPv4" && !internal)?.address;

describe("a server with its demonstration", () => {
  let dataFolder: string;
  let server: Program;
  let address: string;
  beforeAll(async () => {
    dataFolder = await newDataFolder();
    ({ server, address } = await startServer(dataFolder));
  }, 60_000);

  test("listens on this machine alone", async () => {
    const port = Number(new URL(address).port);
    expect(await accepts("127.0.0.1", port)).toBe(true);
    // Every address that begins with 127 is this machine's; only the one asked for is listened on.
    expect(await accepts("127.0.0.2", port)).toBe(false);
    if (ownAddress !== undefined) expect(await accepts(ownAddress, port)).toBe(false);
  });

  test("refuses a second start on its data, with one sentence that says where it runs", async () => {
    const second = await runProgram(["start"], { DATA_DIR: dataFolder, PORT: "0" });
    expect(second.code).toBe(2);
    expect(second.err).toContain(`already running on this data folder, at ${address}.`);
    expect(second.err.split("\n").length).toBe(1);
    expect(second.err).not.toContain("    at ");
    expect((await ask(address, "GET /health")).status).toBe(200);
  }, 30_000);

  test("answers the command line while it runs, and is left as it was", async () => {
    const verified = await runProgram(["verify", "--json"], { DATA_DIR: dataFolder });
    expect([verified.code, verified.err]).toEqual([0, ""]);
    expect((await ask(address, "GET /health")).status).toBe(200);
    expect((await ask(address, "POST /session", demonstration)).status).toBe(201);
  }, 30_000);

  test("stops at Ctrl-C, first itself and then its database, and starts again as it was", async () => {
    const postmaster = await postmasterOf(dataFolder);
    const log = path.join(dataFolder, "postgres.log");
    const before = (await readFile(log, "utf8")).length;
    expect(await server.endGroup("SIGINT")).toBe(0);
    expect(server.lines.slice(-2)).toEqual(["Stopping", "Stopped"]);
    // Its lock file goes a moment before its process does.
    await until(() => !runsStill(postmaster));
    const said = (await readFile(log, "utf8")).slice(before);
    expect(said).toContain("database system is shut down");
    // Nobody was cut off: the server had let go of its connections before.
    expect(said).not.toMatch(/FATAL|terminating connection/);

    const size = (await readFile(log, "utf8")).length;
    const again = await startServer(dataFolder);
    const fresh = (await readFile(log, "utf8")).slice(size);
    expect(fresh).toContain("database system was shut down at");
    expect(fresh).not.toContain("was interrupted");
    expect(again.server.lines.join("\n")).not.toContain("Making the demonstration");
    expect((await ask(again.address, "POST /session", demonstration)).status).toBe(201);
    await again.server.endGroup("SIGINT");
  }, 40_000);

  test("asked to listen everywhere, takes the published passwords from this machine alone", async () => {
    const open = await startServer(dataFolder, { settings: { HOST: "0.0.0.0" } });
    const port = Number(new URL(open.address).port);
    const near = await ask(`http://127.0.0.1:${port}`, "POST /session", demonstration);
    expect(near.status).toBe(201);
    // A machine without a network has nobody who could ask from elsewhere.
    if (ownAddress !== undefined) {
      expect(open.address).toBe(`http://${ownAddress}:${port}`);
      const distant = await ask(open.address, "POST /session", demonstration);
      expect(distant.problem).toBe("demo-on-loopback-only");
      const wrong = await ask(open.address, "POST /session", { ...demonstration, password: "x" });
      expect(wrong.problem).toBe("wrong-credentials");
    }
    await open.server.endGroup("SIGINT");
  }, 40_000);
});

describe("an empty server", () => {
  let dataFolder: string;
  let server: Program;
  let address: string;
  let stranger: Server;
  let usual: number;
  beforeAll(async () => {
    const found = await findPort();
    usual = found.port;
    stranger = createServer((socket) => socket.destroy());
    await new Promise<void>((resolve) => stranger.listen(usual, "127.0.0.1", resolve));
    dataFolder = await newDataFolder();
    const told = { words: ["--empty"], settings: { PORT: String(usual) } };
    ({ server, address } = await startServer(dataFolder, told));
  }, 60_000);
  afterAll(() => void stranger.close());

  const setUp = (told: object = {}) =>
    ask(address, "POST /set-up", {
      code: "AAAA-BBBB-CCCC",
      practiceName: "First practice",
      timeZone: "Europe/Berlin",
      displayName: "Owner",
      signInName: "first-owner",
      password: "a long enough one",
      ...told,
    });

  test("takes another port where a program has its own, and says so", async () => {
    const port = Number(new URL(address).port);
    expect(port).not.toBe(usual);
    expect(port - usual).toBeLessThanOrEqual(20);
    expect(server.lines).toContain(
      `Port ${usual} belongs to another program; using ${port} instead`,
    );
    expect(stranger.listening).toBe(true);
  });

  test("has no demonstration, and hands its code to whoever sits at the console", async () => {
    const code = await server.says(/enter this code once: (\S+)/);
    expect(code).toMatch(/^[A-Z2-9]{4}-[A-Z2-9]{4}-[A-Z2-9]{4}$/);
    expect(server.lines.join("\n")).not.toMatch(/demonstration|password/);
    const file = path.join(dataFolder, "set-up-code");
    expect((await readFile(file, "utf8")).trim()).toBe(code);
    expect((await stat(file)).mode & 0o777).toBe(0o600);
    expect((await ask(address, "GET /set-up")).body).toMatchObject({ needed: true });
    expect((await ask(address, "POST /session", demonstration)).problem).toBe("wrong-credentials");
  });

  test("refuses a wrong code", async () => {
    expect((await setUp()).problem).toBe("wrong-set-up-code");
    expect((await ask(address, "GET /set-up")).body).toMatchObject({ needed: true });
  });

  test("of 16 who come with the code at once lets one in, and nobody afterwards", async () => {
    const code = await server.says(/enter this code once: (\S+)/);
    const answers = await Promise.all(
      Array.from({ length: 16 }, (_, i) => setUp({ code, signInName: `owner-${i}` })),
    );
    const told = answers.map(({ status, problem }) => problem ?? String(status)).sort();
    expect(told).toEqual(["201", ...Array.from({ length: 15 }, () => "already-set-up")]);
    expect((await setUp({ code })).problem).toBe("already-set-up");
    expect((await ask(address, "GET /set-up")).body).toMatchObject({ needed: false });
    const signedIn = await Promise.all(
      Array.from({ length: 16 }, (_, i) =>
        ask(address, "POST /session", { signInName: `owner-${i}`, password: "a long enough one" }),
      ),
    );
    expect(signedIn.filter(({ status }) => status === 201).length).toBe(1);
  }, 30_000);

  test("killed and started anew, asks for nothing: it has its owner", async () => {
    server.kill("SIGKILL");
    await server.ended;
    const again = await startServer(dataFolder, { words: ["--empty"] });
    expect(again.server.lines.join("\n")).not.toContain("enter this code");
    expect((await ask(again.address, "GET /set-up")).body).toMatchObject({ needed: false });
    await again.server.endGroup("SIGINT");
  }, 40_000);
});

describe("a server that is killed while it makes its demonstration", () => {
  test("makes it anew at the next start, whole", async () => {
    const dataFolder = await newDataFolder();
    const settings = { PORT: "0", DATA_DIR: dataFolder };
    for (const afterMs of [150, 350]) {
      const first = new Program(["start"], settings);
      await first.says(/^Making the demonstration/);
      await new Promise((resolve) => setTimeout(resolve, afterMs));
      first.kill("SIGKILL");
      await first.ended;
      expect(first.lines.join("\n")).not.toContain("is ready at");
    }
    const { server, address } = await startServer(dataFolder);
    for (const name of ["assistant", "dentist", "office", "owner"]) {
      const account = { signInName: name, password: `demo-${name}` };
      expect([name, (await ask(address, "POST /session", account)).status]).toEqual([name, 201]);
    }
    await server.endGroup("SIGINT");
    const again = await startServer(dataFolder);
    expect(again.server.lines.join("\n")).not.toMatch(/cut short|Making the demonstration/);
    await again.server.endGroup("SIGINT");
    const verified = await runProgram(["verify", "--json"], { DATA_DIR: dataFolder });
    const { practices } = JSON.parse(verified.out) as { practices: { records: object }[] };
    // As many as the demonstration has.
    expect(practices).toMatchObject([{ ok: true, records: { signed: 5, faults: 0 } }]);
  }, 60_000);
});
