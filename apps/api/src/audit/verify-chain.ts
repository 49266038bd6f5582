import { createHash } from "node:crypto";
import type { AuditRow } from "./audit.store.ts";

/** The first entry of a chain that does not fit, and why. */
export interface ChainFault {
  sequence: number;
  what: string;
}

/** Where a chain stands after some of its entries. */
export interface ChainPosition {
  sequence: number;
  hash: Buffer;
}
export const chainStart: ChainPosition = { sequence: 0, hash: Buffer.alloc(32) };

/** The text of an entry that is hashed: one field a line. The database writes the same. */
const auditText = (entry: AuditRow): string =>
  [
    entry.practice_id,
    entry.sequence,
    entry.at.toISOString(),
    entry.person_id ?? "",
    entry.device_id ?? "",
    entry.action,
    entry.subject,
    entry.change,
  ].join("\n");

/** Goes on along a chain; gives the new position, or the first entry that does not fit. */
export function followChain(
  from: ChainPosition,
  entries: readonly AuditRow[],
): { position: ChainPosition; fault: ChainFault | null } {
  let position = from;
  for (const entry of entries) {
    const what = faultOf(position, entry);
    if (what) return { position, fault: { sequence: position.sequence + 1, what } };
    position = { sequence: entry.sequence, hash: entry.hash };
  }
  return { position, fault: null };
}

function faultOf(before: ChainPosition, entry: AuditRow): string | undefined {
  if (entry.sequence !== before.sequence + 1) return "the entry is missing";
  if (!entry.previous_hash.equals(before.hash)) return "it does not follow the entry before it";
  const hash = createHash("sha256").update(before.hash).update(auditText(entry)).digest();
  return hash.equals(entry.hash) ? undefined : "its content is not what was hashed";
}
