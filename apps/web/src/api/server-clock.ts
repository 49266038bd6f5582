/** How far this device's clock is from the server's, measured from the `Date` of its answers. */
import { useSyncExternalStore } from "react";

let offsetMs = 0;
const listeners = new Set<() => void>();

/** Notes an answer's `Date` header. It has whole seconds, so differences below two say nothing. */
export function noteServerTime(date: string | null, nowMs: number = Date.now()): void {
  const serverMs = date === null ? Number.NaN : Date.parse(date);
  if (Number.isNaN(serverMs)) return;
  const measured = serverMs + 500 - nowMs;
  const next = Math.abs(measured) < 2000 ? 0 : measured;
  if (Math.abs(next - offsetMs) < 1000) return;
  offsetMs = next;
  for (const listener of listeners) listener();
}

/** The server's time as far as known, in milliseconds. */
export function serverNowMs(): number {
  return Date.now() + offsetMs;
}

/** Whole minutes by which this device's clock is ahead (positive) or behind; 0 below one. */
export function useClockMinutesOff(): number {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => Math.trunc(-offsetMs / 60_000),
  );
}
