/**
 * Clients that scan without end, each on its own tray with its own container, and remember all they
 * sent. What gets no answer is unknown; it is sent again with the same key until it gets one.
 */
import { newId } from "../../apps/api/src/db/uuid.ts";
import type { Seeded } from "../helpers/seeded.ts";

/** One submission. Written down before it is sent, and never sent under another key. */
export interface Submission {
  key: string;
  kind: "scan" | "remove" | "move";
  status: number;
  /** The id of what came into being. */
  made: string;
  /** How often it went out without an answer. */
  unanswered: number;
}

export interface Load {
  sent: Submission[];
  /** Answers that nobody should get, whatever was killed. */
  strange: string[];
  trays: string[];
  containers: string[];
  /** Lets every client finish what it has under way. */
  stop(): Promise<void>;
  /** Leaves it: nobody wants the answers any more. */
  abandon(): void;
}

interface Site {
  address: string;
  cookie: string;
}

const api = "/api/v1";
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function ask(
  site: Site,
  method: string,
  about: { path: string; key?: string; body?: object },
) {
  const response = await fetch(`${site.address}${api}${about.path}`, {
    method,
    headers: {
      cookie: site.cookie,
      ...(about.body ? { "content-type": "application/json" } : {}),
      ...(about.key === undefined ? {} : { "idempotency-key": about.key }),
    },
    ...(about.body ? { body: JSON.stringify(about.body) } : {}),
    signal: AbortSignal.timeout(20_000),
  });
  return { response, status: response.status, body: (await response.json()) as unknown };
}

export async function signIn(address: string, name: string): Promise<Site> {
  const body = { signInName: name, password: `demo-${name}` };
  const { response, status } = await ask({ address, cookie: "" }, "POST", {
    path: "/session",
    body,
  });
  if (status !== 201) throw new Error(`${name} could not sign in: ${status}`);
  return { address, cookie: response.headers.get("set-cookie")!.split(";")[0]! };
}

interface Post {
  tray: string;
  container: string;
  code: string;
  home: string;
  operatory: string;
}

/** Plans a tray for each client and finds it a container that stands on a shelf. */
async function prepare(site: Site, clients: number): Promise<Post[]> {
  const get = async <T>(path: string) => (await ask(site, "GET", { path })).body as T;
  const { locations } = await get<{ locations: { id: string; kind: string }[] }>("/locations");
  const operatory = locations.find(({ kind }) => kind === "operatory")!.id;
  const { techniques } = await get<{ techniques: { id: string }[] }>("/techniques");
  const { containers } = await get<{
    containers: { id: string; code: string; location: { id: string; kind: string } }[];
  }>("/containers?here=true&limit=100");
  const shelved = containers.filter(({ location }) =>
    ["store", "refrigerator"].includes(location.kind),
  );
  if (shelved.length < clients) throw new Error(`only ${shelved.length} containers on a shelf`);
  return Promise.all(
    shelved.slice(0, clients).map(async ({ id, code, location }, i) => {
      const plan = {
        chartNumber: `L-${i}`,
        teeth: [{ tooth: "16" }],
        techniqueId: techniques[0]!.id,
        locationId: operatory,
        appointmentAt: new Date().toISOString(),
      };
      const planned = await ask(site, "POST", { path: "/trays", key: newId(), body: plan });
      const { id: tray } = planned.body as { id: string };
      return { tray, container: id, code, home: location.id, operatory };
    }),
  );
}

export async function startLoad(
  address: string,
  told: { clients: number; random: Seeded; limitMs: number },
): Promise<Load> {
  const site = await signIn(address, "assistant");
  const posts = await prepare(site, told.clients);
  const deadline = Date.now() + told.limitMs;
  const [sent, strange]: [Submission[], string[]] = [[], []];
  let [stopping, abandoned] = [false, false];

  async function submit(
    kind: Submission["kind"],
    method: string,
    about: { path: string; body?: object },
  ): Promise<string> {
    const one: Submission = { key: newId(), kind, status: 0, made: "", unanswered: 0 };
    // All together stay below what one address may ask in a minute.
    await pause(150 + told.random.int(100));
    sent.push(one);
    for (;;) {
      if (abandoned) throw new Error("abandoned");
      if (Date.now() > deadline) throw new Error(`no answer in time to ${kind} ${one.key}`);
      const answer = await ask(site, method, { ...about, key: one.key }).catch(() => undefined);
      if (answer && answer.status < 500 && answer.status !== 429) {
        const { item, movement } = answer.body as Record<string, { id: string } | undefined>;
        one.status = answer.status;
        one.made = (item ?? movement)?.id ?? "";
        if (answer.status >= 300) strange.push(`${kind} ${JSON.stringify(answer.body)}`);
        return one.made;
      }
      if (answer && answer.status >= 500 && answer.status !== 503) {
        strange.push(`${kind} ${JSON.stringify(answer.body)}`);
      }
      one.unanswered += 1;
      await pause(answer?.status === 429 ? 1_000 : 250);
    }
  }

  /** To the tray, off the tray, back to its shelf. */
  async function round({ tray, container, code, home, operatory }: Post): Promise<void> {
    const items = `/trays/${tray}/items`;
    const item = await submit("scan", "POST", { path: items, body: { barcodes: [code] } });
    await submit("remove", "DELETE", { path: `${items}/${item}` });
    const [fromLocationId, toLocationId] = [operatory, home];
    const body = { containerId: container, fromLocationId, toLocationId, reason: "put-away" };
    await submit("move", "POST", { path: "/movements", body });
  }

  const clients = posts.map(async (post): Promise<void> => {
    while (!stopping && strange.length === 0) await round(post);
  });
  const ended = Promise.all(clients);
  // Told to whoever stops the load, not to the process.
  ended.catch(() => undefined);
  return {
    sent,
    strange,
    trays: posts.map(({ tray }) => tray),
    containers: posts.map(({ container }) => container),
    stop: async () => {
      stopping = true;
      await ended;
    },
    abandon: () => {
      abandoned = true;
    },
  };
}
