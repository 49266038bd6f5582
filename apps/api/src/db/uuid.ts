import { randomFillSync } from "node:crypto";

// Asking the system for a few random bytes costs as much as for many.
const pool = Buffer.alloc(4096);
let used = pool.length;

function takeRandom(count: number): Buffer {
  if (used + count > pool.length) {
    randomFillSync(pool);
    used = 0;
  }
  used += count;
  return pool.subarray(used - count, used);
}

/** A UUID version 7 (RFC 9562, 5.7): 48 bits of milliseconds, then random. */
export function newId(at: number = Date.now()): string {
  const bytes = takeRandom(16);
  bytes.writeUIntBE(at, 0, 6);
  bytes[6] = 0x70 | (bytes[6]! & 0x0f);
  bytes[8] = 0x80 | (bytes[8]! & 0x3f);
  const hex = bytes.toString("hex");
  const cut = [0, 8, 12, 16, 20, 32];
  return cut
    .slice(1)
    .map((end, index) => hex.slice(cut[index], end))
    .join("-");
}
