import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { OutboxEntry } from "./entry.ts";

/** Where entries are kept. `claim` gives the right to send to one holder at a time. */
export interface OutboxStore {
  /** False where the browser keeps nothing beyond this page. */
  lasting: boolean;
  list: () => Promise<OutboxEntry[]>;
  put: (entry: OutboxEntry) => Promise<void>;
  remove: (key: string) => Promise<void>;
  claim: (holder: string, nowMs: number) => Promise<boolean>;
  release: (holder: string) => Promise<void>;
}

interface Lease {
  holder: string;
  untilMs: number;
}

// A page that dies while sending keeps the others waiting no longer than this. Should a request
// take longer, another tab sends the same key again, and the effect is still one.
const leaseMs = 10_000;

/** A store that ends with the page. */
export function makeMemoryStore(): OutboxStore {
  const entries = new Map<string, OutboxEntry>();
  let lease: Lease | null = null;
  return {
    lasting: false,
    list: () => Promise.resolve(sort([...entries.values()])),
    put: (entry) => {
      entries.set(entry.key, entry);
      return Promise.resolve();
    },
    remove: (key) => {
      entries.delete(key);
      return Promise.resolve();
    },
    claim: (holder, nowMs) => {
      if (lease !== null && lease.holder !== holder && lease.untilMs > nowMs) {
        return Promise.resolve(false);
      }
      lease = { holder, untilMs: nowMs + leaseMs };
      return Promise.resolve(true);
    },
    release: (holder) => {
      if (lease?.holder === holder) lease = null;
      return Promise.resolve();
    },
  };
}

interface OutboxSchema extends DBSchema {
  entry: { key: string; value: OutboxEntry };
  lease: { key: string; value: Lease };
}

/** The browser's database, or memory where it gives none. */
export async function openStore(): Promise<OutboxStore> {
  try {
    const db = await openDB<OutboxSchema>("tubule-outbox", 1, {
      upgrade: (fresh) => {
        fresh.createObjectStore("entry", { keyPath: "key" });
        fresh.createObjectStore("lease");
      },
    });
    return makeIdbStore(db);
  } catch {
    return makeMemoryStore();
  }
}

function makeIdbStore(db: IDBPDatabase<OutboxSchema>): OutboxStore {
  return {
    lasting: true,
    list: async () => sort(await db.getAll("entry")),
    put: async (entry) => {
      // Strict: told as kept only when it is on the disk.
      const change = db.transaction("entry", "readwrite", { durability: "strict" });
      await Promise.all([change.store.put(entry), change.done]);
    },
    remove: (key) => db.delete("entry", key),
    // Web Locks are missing on plain http; a transaction on one row is a lock as well.
    claim: async (holder, nowMs) => {
      const change = db.transaction("lease", "readwrite");
      const held = await change.store.get("sender");
      const free = held === undefined || held.holder === holder || held.untilMs <= nowMs;
      if (free) await change.store.put({ holder, untilMs: nowMs + leaseMs }, "sender");
      await change.done;
      return free;
    },
    release: async (holder) => {
      const change = db.transaction("lease", "readwrite");
      const held = await change.store.get("sender");
      if (held?.holder === holder) await change.store.delete("sender");
      await change.done;
    },
  };
}

function sort(entries: OutboxEntry[]): OutboxEntry[] {
  return entries.sort((a, b) => (a.key < b.key ? -1 : Number(a.key > b.key)));
}
