/**
 * P2: a scan into a tray over HTTP. CPU time of the server's process a request, ours beside a bare
 * Fastify handler with pg that does the same SQL in one named function. Each runs in a process of
 * its own on the same database; rounds alternate, so that a busy machine slows both.
 */
import { fork, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import type { Products, Techniques } from "#contracts/catalogue";
import type { Locations } from "#contracts/people";
import type { DeliveryLineView, DeliveryView } from "#contracts/stock";
import type { TrayView } from "#contracts/trays";
import { makeApp } from "../../apps/api/src/app.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { withBenchDatabase, type BenchDatabase } from "./bench-database.ts";
import { makeBareFunction, makeBareServer } from "./scan-bare.ts";

const warmUpRounds = 2;
const rounds = Number(process.env["BENCH_ROUNDS"] ?? 4);
const traysPerRound = 60;
const clients = 4;
const api = "/api/v1";

export async function run(words: string[]): Promise<void> {
  if (words[0] === "--serve") return serve(words[1]!, words[2]!);
  await withBenchDatabase(measure);
}

/** In a process of its own: serves, and reports its CPU time when asked. */
async function serve(role: string, url: string): Promise<void> {
  let port: number;
  if (role === "bare") {
    const server = await makeBareServer(url);
    port = Number(new URL(await server.listen({ port: 0 })).port);
  } else {
    const app = await makeApp({ db: await connect(url), requestsPerMinute: 10_000_000 });
    await app.listen(0, "127.0.0.1");
    port = (app.getHttpServer().address() as { port: number }).port;
  }
  process.on("message", () => process.send!(process.cpuUsage()));
  process.on("disconnect", () => process.exit(0));
  process.send!({ port });
}

interface Served {
  child: ChildProcess;
  base: string;
}
async function startServing(role: string, url: string): Promise<Served> {
  const child = fork(fileURLToPath(import.meta.url), ["--serve", role, url]);
  const [{ port }] = (await once(child, "message")) as [{ port: number }];
  return { child, base: `http://127.0.0.1:${port}` };
}

async function cpuMilliseconds({ child }: Served): Promise<number> {
  child.send("cpu?");
  const [usage] = (await once(child, "message")) as [NodeJS.CpuUsage];
  return (usage.user + usage.system) / 1000;
}

async function measure(database: BenchDatabase): Promise<void> {
  await database.owner.query(makeBareFunction());
  const served = {
    tubule: await startServing("tubule", database.appUrl),
    bare: await startServing("bare", database.appUrl),
  };
  try {
    const work = await prepare(served.tubule.base);
    const spent = { tubule: 0, bare: 0 };
    let scans = 0;
    for (let round = 0; round < warmUpRounds + rounds; round++) {
      for (const role of ["tubule", "bare"] as const) {
        const trays = await work.planTrays(traysPerRound);
        const before = await cpuMilliseconds(served[role]);
        const done = await work.scanInto(served[role].base, trays);
        const after = await cpuMilliseconds(served[role]);
        // The first rounds warm up and do not count.
        if (round < warmUpRounds) continue;
        spent[role] += after - before;
        if (role === "tubule") scans += done;
      }
    }
    const each = (role: "tubule" | "bare") => (spent[role] / scans).toFixed(3);
    const ratio = (spent.tubule / spent.bare).toFixed(2);
    console.log(`scan into tray, ${scans} scans each, node CPU a request:`);
    console.log(`  tubule ${each("tubule")} ms, bare Fastify and pg ${each("bare")} ms`);
    console.log(`  ratio ${ratio} (bar 1.6)`);
  } finally {
    for (const { child } of Object.values(served)) child.disconnect();
  }
}

interface Work {
  planTrays(count: number): Promise<{ id: string; codes: string[] }[]>;
  scanInto(base: string, trays: { id: string; codes: string[] }[]): Promise<number>;
}

type Caller = <Answer>(method: string, address: string, body?: object) => Promise<Answer>;

/** Keeps the cookie of the session; each request has a key of its own. */
function makeCaller(): Caller {
  let cookie = "";
  return async <Answer>(method: string, address: string, body?: object) => {
    const response = await fetch(address, {
      method,
      headers: { "content-type": "application/json", "idempotency-key": newId(), cookie },
      ...(body ? { body: JSON.stringify(body) } : {}),
    });
    const set = response.headers.getSetCookie().map((each) => each.split(";")[0]);
    if (set.length > 0) cookie = set.join("; ");
    if (!response.ok) throw new Error(`${method} ${address}: ${await response.text()}`);
    return (await response.json()) as Answer;
  };
}

const onEachTray = [
  "Alder Primer",
  "Alder Bond",
  "Dune Flow",
  "Ember Glycerin Gel",
  "Fern Separator",
];

/** Receives enough of each product; gives the codes of its containers. */
async function fillShelves(call: Caller, our: string, storeId: string): Promise<string[][]> {
  const { products } = await call<Products>("GET", `${our}/products`);
  const delivery = await call<DeliveryView>("POST", `${our}/deliveries`, {});
  const needed = (warmUpRounds + rounds) * 2 * traysPerRound;
  const shelves: string[][] = [];
  for (const name of onEachTray) {
    const product = products.find((each) => each.name === name)!;
    const unit = product.identifiers.find((each) => each.packLevel === "unit")!;
    const codes: string[] = [];
    while (codes.length < needed) {
      const line = await call<DeliveryLineView>("POST", `${our}/deliveries/${delivery.id}/lines`, {
        barcodes: [`01${unit.value}17301231` + `10BENCH${codes.length}`],
        locationId: storeId,
        quantity: Math.min(1000, needed - codes.length),
      });
      codes.push(...line.containers.map(({ code }) => code));
    }
    shelves.push(codes);
  }
  return shelves;
}

/** Signs in, receives enough bottles, and hands out trays with five codes each. */
async function prepare(base: string): Promise<Work> {
  const call = makeCaller();
  const our = `${base}${api}`;
  await call("POST", `${our}/session`, { signInName: "assistant", password: "demo-assistant" });
  const { locations } = await call<Locations>("GET", `${our}/locations`);
  const { techniques } = await call<Techniques>("GET", `${our}/techniques`);
  const place = (kind: string) => locations.find((each) => each.kind === kind)!.id;
  const shelves = await fillShelves(call, our, place("store"));
  const technique = techniques.find((each) => each.key === "seal-self-etch-two-step")!;
  return {
    planTrays: async (count) => {
      const trays = [];
      for (let n = 0; n < count; n++) {
        const tray = await call<TrayView>("POST", `${our}/trays`, {
          chartNumber: `B-${n}`,
          teeth: [{ tooth: "16" }],
          techniqueId: technique.id,
          locationId: place("operatory"),
          appointmentAt: new Date(Date.now() + 3_600_000).toISOString(),
        });
        trays.push({ id: tray.id, codes: shelves.map((codes) => codes.pop()!) });
      }
      return trays;
    },
    scanInto: async (target, trays) => {
      const waiting = [...trays];
      await Promise.all(
        Array.from({ length: clients }, async () => {
          for (let tray = waiting.pop(); tray; tray = waiting.pop()) {
            for (const code of tray.codes) {
              await call("POST", `${target}${api}/trays/${tray.id}/items`, { barcodes: [code] });
            }
          }
        }),
      );
      return trays.reduce((sum, tray) => sum + tray.codes.length, 0);
    },
  };
}
