import { createServer } from "node:net";
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import { readLock } from "../../apps/api/src/db/embedded-lock.ts";
import { startEmbeddedPostgres } from "../../apps/api/src/db/embedded.ts";
import { findPort, query, until } from "../helpers/embedded.ts";
import { chooseSeed, seeded } from "../helpers/seeded.ts";
import { startLoad, type Load } from "./scan-load.ts";
import {
  clusterOf,
  endEverything,
  newDataFolder,
  postmasterOf,
  runProgram,
  startServer,
  type Program,
} from "./server-process.ts";

/** Five in every run; more by `TUBULE_KILLS`, for a long night. */
const kills = Number(process.env["TUBULE_KILLS"] ?? 5);
const victims = ["node", "database", "both"] as const;
const limitMs = 60_000 + kills * 20_000;
const backWithinMs = 15_000;

let dataFolder: string;
let port: string;
let server: Program;
const servers: Program[] = [];
let address: string;
let load: Load | undefined;

// Another test's PostgreSQL would take the usual port while ours is dead: ours never gets it.
const holder = createServer();
const hold = () => void holder.listen(54_329, "127.0.0.1");
holder.on("error", () => setTimeout(hold, 100).unref());

beforeAll(async () => {
  hold();
  dataFolder = await newDataFolder();
  port = String((await findPort()).port);
  ({ server, address } = await startServer(dataFolder, { settings: { PORT: port } }));
  servers.push(server);
}, 60_000);
afterAll(() => {
  holder.removeAllListeners("error").close();
  load?.abandon();
  return endEverything();
}, 30_000);

/** Asked ten times a second at most: whoever asks more often is told to wait. */
const isHealthy = async () => {
  await new Promise((resolve) => setTimeout(resolve, 100));
  const asked = fetch(`${address}/api/v1/health`, { signal: AbortSignal.timeout(2_000) });
  return (await asked.catch(() => undefined))?.status === 200;
};

/** Kills, brings back what does not come back by itself, and says how long it was away. */
async function kill(victim: (typeof victims)[number]): Promise<number> {
  const postmaster = await postmasterOf(dataFolder);
  if (victim !== "node") process.kill(postmaster, "SIGKILL");
  if (victim !== "database") server.kill("SIGKILL");
  const began = performance.now();
  if (victim !== "database") {
    expect(await server.ended).toBe("SIGKILL");
    const again = await startServer(dataFolder, { settings: { PORT: port } });
    expect(again.address).toBe(address);
    server = again.server;
    servers.push(server);
  } else {
    await until(async () => {
      const lock = await readLock(clusterOf(dataFolder));
      return lock !== null && lock.pid !== postmaster && lock.status === "ready";
    });
  }
  await until(isHealthy);
  return performance.now() - began;
}

async function compare(load: Load): Promise<void> {
  const { url } = await startEmbeddedPostgres({ dataFolder });
  const list = (ids: readonly string[]) => `array[${ids.map((id) => `'${id}'`).join(",")}]::uuid[]`;
  const made = (kind: string) =>
    load.sent.filter((each) => each.kind === kind).map((each) => each.made);
  const stored = async (text: string) =>
    (await query(url, text)).map((row) => String(Object.values(row)[0])).sort();
  const [trays, containers] = [list(load.trays), list(load.containers)];
  const scans = made("scan").sort();
  expect(new Set(scans).size).toBe(scans.length);
  expect(await stored(`select id from tray_item where tray_id = any(${trays})`)).toEqual(scans);
  const left = `select id from tray_item where tray_id = any(${trays}) and removed_at is null`;
  expect(await stored(left)).toEqual([]);
  const moves = made("move").sort();
  const moved = `select id from movement where container_id = any(${containers})`;
  expect(
    await stored(`${moved} and reason = 'put-away'
    and recorded_at >= (select min(created_at) from tray where id = any(${trays}))`),
  ).toEqual(moves);
  const onto = await stored(`${moved} and reason = 'tray'
    and recorded_at >= (select min(created_at) from tray where id = any(${trays}))`);
  expect(onto.length).toBe(scans.length);
  const keys = load.sent.map(({ key }) => key).sort();
  const kept = `select key from idempotency_key where status is not null
    and operation in ('scanIntoTray', 'removeFromTray', 'move')`;
  expect(await stored(kept)).toEqual(keys);
  for (const [action, number] of [
    ["placed-on-tray", scans.length],
    ["removed-from-tray", made("remove").length],
  ] as const) {
    const entries = `select sequence from audit_entry where action = '${action}'
      and subject in (select 'tray:' || id from tray where id = any(${trays}))`;
    expect((await stored(entries)).length).toBe(number);
  }
}

test(
  `nothing acknowledged is lost and nothing is done twice, whatever is killed (${kills} times)`,
  async () => {
    const random = seeded(chooseSeed());
    load = await startLoad(address, { clients: 8, random, limitMs });
    const away: number[] = [];
    const order: string[] = [];
    for (let i = 0; i < kills; i++) {
      await new Promise((resolve) => setTimeout(resolve, 150 + random.int(1_000)));
      // Each of the three at least once, then as it comes.
      const victim = i < victims.length ? victims[(i + random.seed) % 3]! : random.pick(victims);
      order.push(victim);
      away.push(await kill(victim));
    }
    await load.stop();
    const unknown = load.sent.filter(({ unanswered }) => unanswered > 0).length;
    const figures = {
      seed: random.seed,
      kills: order.join(" "),
      acknowledged: load.sent.length,
      unknownAtFirst: unknown,
      longestAwayMs: Math.round(Math.max(...away)),
    };
    process.stderr.write(`${JSON.stringify(figures)}\n`);

    // With what the servers wrote of it.
    const faults = servers.flatMap(({ lines }) => lines.filter((line) => line.includes("failed")));
    expect([load.strange, load.strange.length > 0 ? faults : []]).toEqual([[], []]);
    expect(load.sent.every(({ status }) => status === 200 || status === 201)).toBe(true);
    // With fewer the test would say nothing.
    expect(load.sent.length).toBeGreaterThan(kills * 8);
    expect(unknown).toBeGreaterThan(0);
    expect(Math.max(...away)).toBeLessThan(backWithinMs);
    await compare(load);

    expect(await server.endGroup("SIGINT")).toBe(0);
    const verified = await runProgram(["verify", "--json"], { DATA_DIR: dataFolder });
    expect(verified).toMatchObject({ code: 0, err: "" });
    const { ok, practices } = JSON.parse(verified.out) as {
      ok: boolean;
      practices: { fault: unknown; ledger: { differences: number }; records: { faults: number } }[];
    };
    expect(ok).toBe(true);
    expect(practices).toMatchObject([
      { fault: null, ledger: { differences: 0 }, records: { faults: 0 } },
    ]);
  },
  limitMs,
);
