import type { RouteName } from "#contracts/routes";

/** A write that the server has not yet confirmed: kept before it is sent, under the same key. */
export interface OutboxEntry {
  /** Idempotency-Key, a UUIDv7: in the order of their keys is in the order they were made. */
  key: string;
  route: RouteName;
  params: Record<string, string>;
  body: unknown;
  /** In whose name and for which practice: never sent in anybody else's. */
  personId: string;
  personName: string;
  practiceId: string;
  /** What a person calls it, such as the label scanned. */
  about: string;
  /** What it belongs to, such as a tray's id: its page shows what still waits. */
  belongsTo: string;
  /** The tablet's time, ISO 8601. */
  at: string;
  tries: number;
  /** Set where the server refused it: it waits for a person to settle. */
  refused: { code: string; detail: string; instance: string } | null;
}

export type NewEntry = Omit<OutboxEntry, "key" | "at" | "tries" | "refused">;
