let lastMs = 0;
let count = 0;

/**
 * A UUID of version 7 (RFC 9562): 48 bits of time, a counter within the millisecond, then random.
 * Those made later on this page sort later, also where the clock was set back meanwhile.
 * `crypto.randomUUID` is missing on plain http, `getRandomValues` is not.
 */
export function makeUuid(nowMs: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  count = nowMs > lastMs ? 0 : count + 1;
  lastMs = Math.max(nowMs, lastMs);
  if (count > 0x0fff) {
    lastMs += 1;
    count = 0;
  }
  let time = lastMs;
  for (let place = 5; place >= 0; place -= 1) {
    bytes[place] = time % 256;
    time = Math.floor(time / 256);
  }
  bytes[6] = 0x70 | (count >> 8);
  bytes[7] = count & 0xff;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    hex.slice(12, 16),
    hex.slice(16, 20),
    hex.slice(20),
  ].join("-");
}
