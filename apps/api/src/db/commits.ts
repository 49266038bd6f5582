import type { DataSource } from "typeorm";
import type { Actor } from "../http/actor.ts";

/** What a command has done, once it is sure. */
export interface Committed {
  actor: Actor;
  at: Date;
  /** As in the audit trail. */
  changes: readonly { action: string; subject: string }[];
}

type Listener = (committed: Committed) => void;
const listeners = new WeakMap<DataSource, Set<Listener>>();

/** Hears every command of this process after its commit; answers what ends that. */
export function listenToCommits(db: DataSource, listener: Listener): () => void {
  const set = listeners.get(db) ?? new Set();
  listeners.set(db, set.add(listener));
  return () => set.delete(listener);
}

export function tellCommitted(db: DataSource, committed: Committed): void {
  if (committed.changes.length === 0) return;
  for (const listener of listeners.get(db) ?? []) listener(committed);
}
