import type Ical from "ical.js";
import { clockAt, isTimeZone } from "#domain";
import type { AppointmentRows } from "#contracts/trays";

type Event = InstanceType<typeof Ical.Component>;
type Time = InstanceType<typeof Ical.Time>;
type Row = AppointmentRows["rows"][number];
type Skipped = AppointmentRows["skipped"][number];
type Clock = Pick<Row, "day" | "time" | "at">;

const longest = 200;
export const cut = (text: string | undefined): string => (text ?? "").trim().slice(0, longest);

// Neither is needed before a calendar is read.
const load = async () => ({
  ical: (await import("ical.js")).default,
  temporal: (await import("temporal-polyfill")).Temporal,
});
type Loaded = Awaited<ReturnType<typeof load>>;

/**
 * The events of a calendar (RFC 5545); `null` for what is none. The summary holds the chart number
 * and the teeth, such as `C-1001 16 26`; the place is the room, the first category the technique.
 */
export async function readCalendar(
  text: string,
  timeZone: string,
): Promise<{ rows: Row[]; skipped: Skipped[] } | null> {
  const loaded = await load();
  let events;
  try {
    events = new loaded.ical.Component(loaded.ical.parse(text)).getAllSubcomponents("vevent");
  } catch {
    return null;
  }
  const rows: Row[] = [];
  const skipped: Skipped[] = [];
  for (const event of events) {
    const read = readEvent(event, loaded, timeZone);
    if ("why" in read) skipped.push(read);
    else rows.push(read);
  }
  return { rows, skipped };
}

function readEvent(event: Event, loaded: Loaded, timeZone: string): Row | Skipped {
  const valueOf = (name: string): string => cut(String(event.getFirstPropertyValue(name) ?? ""));
  const text = valueOf("summary");
  if (valueOf("status") === "CANCELLED") return { text, why: "cancelled" };
  if (event.hasProperty("rrule") || event.hasProperty("rdate")) return { text, why: "repeats" };
  const start = startOf(event, loaded);
  if (start === null) return { text, why: "no-time" };
  if (start.isDate) return { text, why: "whole-day" };
  const zone = event.getFirstProperty("dtstart")?.getFirstParameter("tzid");
  const clock = clockOf(start, { zone, loaded, timeZone });
  if (clock === null) return { text, why: "unknown-zone" };
  const [chart = "", ...teeth] = text.split(/\s+/);
  return {
    chart,
    teeth: teeth.join(" "),
    technique: valueOf("categories"),
    room: valueOf("location"),
    ...clock,
  };
}

/** `null` for a start that is none: a day that no calendar has would be taken for a later one. */
function startOf(event: Event, { ical }: Loaded): Time | null {
  const property = event.getFirstProperty("dtstart");
  let start: unknown;
  try {
    start = property?.getFirstValue();
  } catch {
    return null;
  }
  const [, , , written] = property?.toJSON() ?? [];
  return start instanceof ical.Time && start.toString() === written ? start : null;
}

interface ClockTold {
  zone: string | undefined;
  loaded: Loaded;
  timeZone: string;
}

/**
 * When an event starts by the clock of the practice; `null` where its zone is neither known nor
 * described in the calendar. The forms are those of RFC 5545, 3.3.5: a time with no zone is one of
 * the practice, a time left out by summer time is as far behind the gap, of two the first is meant.
 */
function clockOf(start: Time, { zone, loaded, timeZone }: ClockTold): Clock | null {
  const { ical, temporal } = loaded;
  const local = start.toString().replace("Z", "");
  const [day = "", clock = ""] = local.split("T");
  const isUniversal = start.zone === ical.Timezone.utcTimezone;
  if (zone === undefined && !isUniversal) return { day, time: clock.slice(0, 5), at: null };
  const shown = (ms: number): Clock => {
    const at = new Date(ms).toISOString();
    return { ...clockAt(at, timeZone), at };
  };
  if (!isUniversal && zone !== undefined && isTimeZone(zone)) {
    const wall = temporal.PlainDateTime.from(local);
    return shown(wall.toZonedDateTime(zone, { disambiguation: "compatible" }).epochMilliseconds);
  }
  // By the calendar's own description of the zone.
  if (start.zone === ical.Timezone.localTimezone) return null;
  return shown(start.toUnixTime() * 1000);
}
