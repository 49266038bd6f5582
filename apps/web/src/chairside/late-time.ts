import { createContext, useState } from "react";
import { clockAt, instantOfClock } from "#domain";
import { useFormats } from "../texts/useFormats.ts";
import type { RecordView } from "./steps.ts";

/** When what is being told happened; `null` where it happens now. */
export const ToldTime = createContext<string | null>(null);

export interface LateTime {
  /** As typed, `HH:MM`. */
  time: string;
  setTime: (time: string) => void;
  /** `null` for what is no time of that day, or lies before the start of priming. */
  at: string | null;
}

/**
 * The instant of a time on the day on which a record began; `null` for no time of that day and for
 * one before the start. The minute of the start has its seconds: within it, nothing comes before.
 */
export function lateInstant(startedAt: string, time: string, timeZone: string): string | null {
  const start = clockAt(startedAt, timeZone);
  if (time === start.time) return startedAt;
  const at = instantOfClock(start.day, time, timeZone);
  return at === null || at < startedAt ? null : at;
}

/** The time that is told of a step of a late record: at first that of what was told last. */
export function useLateTime(record: RecordView): LateTime {
  const { timeZone } = useFormats();
  const { startedAt, events } = record;
  const last = events
    .map(({ occurredAt }) => occurredAt)
    .toSorted()
    .at(-1);
  const before = last === undefined || last < startedAt ? startedAt : last;
  const [time, setTime] = useState(clockAt(before, timeZone).time);
  return { time, setTime, at: lateInstant(startedAt, time, timeZone) };
}
