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
  /** The hash before the last entry's: tells whether that entry was slipped in. */
  before: Buffer;
}
const zeros = Buffer.alloc(32);
export const chainStart: ChainPosition = { sequence: 0, hash: zeros, before: zeros };

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
    const fault = faultOf(position, entry);
    if (fault) return { position, fault };
    position = { sequence: entry.sequence, hash: entry.hash, before: position.hash };
  }
  return { position, fault: null };
}

function faultOf(position: ChainPosition, entry: AuditRow): ChainFault | null {
  const { sequence: last, hash, before } = position;
  const expected = last + 1;
  if (entry.sequence !== expected) return { sequence: expected, what: "the entry is missing" };
  const own = createHash("sha256").update(entry.previous_hash).update(auditText(entry)).digest();
  const whole = own.equals(entry.hash);
  if (entry.previous_hash.equals(hash)) {
    return whole ? null : { sequence: expected, what: "its content is not what was hashed" };
  }
  // Where the later entry is whole in itself, or followed the one before, the fault lies between.
  if (last > 0 && (whole || entry.previous_hash.equals(before))) {
    return { sequence: last, what: "it is not the entry that the next one followed" };
  }
  return { sequence: expected, what: "it does not follow the entry before it" };
}

/** Compares the end of a chain with the head that is kept beside it. */
export function compareHead(
  end: ChainPosition,
  head: Pick<ChainPosition, "sequence" | "hash"> | undefined,
): ChainFault | null {
  if (!head) return { sequence: end.sequence + 1, what: "the head of the chain is missing" };
  if (end.sequence < head.sequence) {
    return { sequence: end.sequence + 1, what: "the end of the chain is missing" };
  }
  if (end.sequence > head.sequence) {
    return { sequence: head.sequence + 1, what: "it was added behind the end of the chain" };
  }
  if (end.hash.equals(head.hash)) return null;
  return { sequence: end.sequence, what: "it is not the entry that the head was made from" };
}
