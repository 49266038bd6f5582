import { describe, expect, test } from "@jest/globals";
import fc from "fast-check";
import type { LooseInput } from "../api/client.ts";
import { ApiProblem, Unreachable } from "../api/problem.ts";
import { Outbox, type OutboxParts } from "./outbox.ts";
import { makeMemoryStore } from "./store.ts";

const anna = { personId: "anna", practiceId: "p1" };
const berta = { personId: "berta", practiceId: "p1" };
const problem = (code: string, status: number) =>
  new ApiProblem({ type: `/problems/${code}` }, status);

const scan = (barcode: string, sender = anna) => ({
  ...sender,
  route: "scanIntoTray" as const,
  params: { trayId: "t1" },
  body: { barcodes: [barcode] },
  personName: sender.personId,
  about: barcode,
  belongsTo: "t1",
});

/** A server that does each key once, however often it comes; `fate` decides about each request. */
function makeServer(
  fate: (barcode: string, request: number) => Error | "lost" | null = () => null,
) {
  const applied: string[] = [];
  const keys: string[] = [];
  const done = new Set<string>();
  let requests = 0;
  const send: NonNullable<OutboxParts["send"]> = async (_name, input: LooseInput) => {
    const barcode = (input.body as { barcodes: string[] }).barcodes[0]!;
    const outcome = fate(barcode, requests++);
    keys.push(input.key!);
    await Promise.resolve();
    if (outcome instanceof Error) throw outcome;
    if (!done.has(input.key!)) applied.push(barcode);
    done.add(input.key!);
    if (outcome === "lost") throw new Unreachable("answer lost");
    return { item: barcode };
  };
  return { send, applied, keys };
}

const settle = async (outbox: Outbox, sender = anna) => {
  for (let round = 0; round < 200 && !(await outbox.flush(sender)); round += 1);
};

const settleOnce = async (outbox: Outbox) => {
  await new Promise((resolve) => setImmediate(resolve));
  return outbox.snapshot();
};

describe("the outbox", () => {
  test("keeps a write before it sends it and forgets it when it is confirmed", async () => {
    const store = makeMemoryStore();
    let keptWhenSent = 0;
    const send = async () => {
      keptWhenSent = (await store.list()).length;
      return { done: true };
    };
    const outbox = new Outbox({ store, send });
    await expect(outbox.add(scan("A"), anna)).resolves.toEqual({ done: true });
    expect(keptWhenSent).toBe(1);
    expect(outbox.snapshot()).toEqual([]);
  });

  test("gives the answer before anybody sees that the write no longer waits", async () => {
    const outbox = new Outbox({ store: makeMemoryStore(), send: async () => ({ done: true }) });
    let answer: unknown = null;
    const answersSeen: unknown[] = [];
    outbox.subscribe(() => {
      if (outbox.snapshot().length === 0) answersSeen.push(answer);
    });
    await outbox.add(scan("A"), anna, (given) => {
      answer = given;
    });
    expect(answersSeen.length).toBeGreaterThan(0);
    for (const seen of answersSeen) expect(seen).toEqual({ done: true });
  });

  test("sends again under the same key when the answer was lost, and the effect is one", async () => {
    const server = makeServer((_, request) => (request < 3 ? "lost" : null));
    const outbox = new Outbox({ store: makeMemoryStore(), send: server.send });
    const answer = outbox.add(scan("A"), anna);
    await settle(outbox);
    await expect(answer).resolves.toEqual({ item: "A" });
    expect(server.applied).toEqual(["A"]);
    expect(server.keys).toHaveLength(4);
    expect(new Set(server.keys).size).toBe(1);
  });

  test("sends in the order in which the writes were made, one at a time", async () => {
    let running = 0;
    let most = 0;
    const seen: string[] = [];
    const send: NonNullable<OutboxParts["send"]> = async (_, input) => {
      running += 1;
      most = Math.max(most, running);
      await new Promise((resolve) => setImmediate(resolve));
      seen.push((input.body as { barcodes: string[] }).barcodes[0]!);
      running -= 1;
      return {};
    };
    const outbox = new Outbox({ store: makeMemoryStore(), send });
    const barcodes = Array.from({ length: 20 }, (_, index) => `B${index}`);
    await Promise.all(barcodes.map((barcode) => outbox.add(scan(barcode), anna)));
    expect(seen).toEqual(barcodes);
    expect(most).toBe(1);
  });

  test("sets a refused write aside for a person and goes on with the next", async () => {
    const server = makeServer((barcode) =>
      barcode === "A" ? problem("tray-not-open", 409) : null,
    );
    const outbox = new Outbox({ store: makeMemoryStore(), send: server.send });
    const refused = outbox.add(scan("A"), anna).catch((error: unknown) => error);
    await outbox.add(scan("B"), anna);
    expect(await refused).toMatchObject({ code: "tray-not-open" });
    expect(outbox.snapshot()).toMatchObject([{ about: "A", refused: { code: "tray-not-open" } }]);
    await outbox.letGo(outbox.snapshot()[0]!.key);
    expect(outbox.snapshot()).toEqual([]);
  });

  test("never sends in another person's name", async () => {
    const server = makeServer(() => new Unreachable("no network"));
    const store = makeMemoryStore();
    const offline = new Outbox({ store, send: server.send });
    void offline.add(scan("A"), anna);
    await settle(offline);
    const online = makeServer();
    const outbox = new Outbox({ store, send: online.send });
    await settle(outbox, berta);
    expect(online.applied).toEqual([]);
    expect(outbox.snapshot()).toHaveLength(1);
    await settle(outbox, anna);
    expect(online.applied).toEqual(["A"]);
  });

  test("waits where nobody is signed in, and asks a person after the third fault of the server", async () => {
    const signedOut = makeServer(() => problem("not-signed-in", 401));
    const store = makeMemoryStore();
    const first = new Outbox({ store, send: signedOut.send });
    void first.add(scan("A"), anna).catch(() => {});
    await settle(first);
    expect(first.snapshot()).toMatchObject([{ refused: null }]);
    const faulty = new Outbox({
      store,
      send: makeServer(() => problem("internal-error", 500)).send,
    });
    await settle(faulty);
    expect(faulty.snapshot()).toMatchObject([{ refused: { code: "internal-error" } }]);
  });

  test("can send a refused write again, still under its first key", async () => {
    const server = makeServer((_, request) => (request === 0 ? problem("not-allowed", 403) : null));
    const outbox = new Outbox({ store: makeMemoryStore(), send: server.send });
    await outbox.add(scan("A"), anna).catch(() => {});
    await outbox.sendAgain(outbox.snapshot()[0]!.key, anna);
    expect(server.applied).toEqual(["A"]);
    expect(new Set(server.keys).size).toBe(1);
  });

  test("leaves sending to the tab that holds the claim until that one has gone silent", async () => {
    const store = makeMemoryStore();
    await store.claim("another tab", 0);
    const server = makeServer();
    let nowMs = 1000;
    const outbox = new Outbox({ store, send: server.send, nowMs: () => nowMs });
    void outbox.add(scan("A"), anna);
    await settle(outbox);
    expect(server.applied).toEqual([]);
    nowMs = 60_000;
    await settle(outbox);
    expect(server.applied).toEqual(["A"]);
  });

  test("gets the answer also where another tab has sent its write", async () => {
    const server = makeServer((_, request) => (request === 0 ? new Unreachable("down") : null));
    const store = makeMemoryStore();
    const here = new Outbox({ store, send: server.send });
    const answer = here.add(scan("A"), anna);
    await settleOnce(here);
    await settle(new Outbox({ store, send: server.send }));
    await here.reload();
    await expect(answer).resolves.toEqual({ item: "A" });
    expect(server.applied).toEqual(["A"]);
  });

  test("lets another tab send as soon as nothing waits here", async () => {
    const server = makeServer();
    const store = makeMemoryStore();
    const nowMs = () => 0;
    await new Outbox({ store, send: server.send, nowMs }).add(scan("A"), anna);
    await new Outbox({ store, send: server.send, nowMs }).add(scan("B"), anna);
    expect(server.applied).toEqual(["A", "B"]);
  });

  test("delivers everything once and in order over any bad network and any reload", async () => {
    const fates = fc.array(fc.constantFrom("done", "lost", "down", "busy"), {
      minLength: 1,
      maxLength: 40,
    });
    await fc.assert(
      fc.asyncProperty(fates, fc.integer({ min: 1, max: 10 }), async (list, writes) => {
        const server = makeServer((_, request) => {
          const fate = list[request];
          if (fate === "down") return new Unreachable("down");
          if (fate === "busy") return problem("request-in-progress", 409);
          return fate === "lost" ? "lost" : null;
        });
        const store = makeMemoryStore();
        const barcodes = Array.from({ length: writes }, (_, index) => `W${index}`);
        for (const barcode of barcodes) {
          // Each write on a page of its own, as if the tablet were reloaded in between.
          const page = new Outbox({ store, send: server.send });
          void page.add(scan(barcode), anna);
          await new Promise((resolve) => setImmediate(resolve));
        }
        await settle(new Outbox({ store, send: server.send, nowMs: () => Date.now() + 60_000 }));
        expect(server.applied).toEqual(barcodes);
        expect(await store.list()).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});
