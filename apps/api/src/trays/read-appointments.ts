import { clockAt, instantOfClock, isTimeZone } from "#domain";
import type { AppointmentRows } from "#contracts/trays";
import { Problem } from "../http/problem.ts";

type Row = AppointmentRows["rows"][number];
const fields = ["chart", "teeth", "time", "technique", "room", "day"] as const;
type Field = (typeof fields)[number];

/** What a column may be called, in English and German. */
const headings: Record<Field, readonly string[]> = {
  chart: ["chart", "chart number", "patient", "akte", "aktennummer", "patientennummer"],
  teeth: ["tooth", "teeth", "zahn", "zähne", "zaehne"],
  time: ["time", "start", "from", "zeit", "uhrzeit", "beginn", "von"],
  technique: ["technique", "treatment", "technik", "behandlung"],
  room: ["room", "operatory", "place", "zimmer", "raum", "ort"],
  day: ["day", "date", "tag", "datum"],
};
const longest = 200;
const cut = (text: string | undefined): string => (text ?? "").trim().slice(0, longest);

/**
 * Reads an appointment list as it is written: iCalendar (RFC 5545) where it begins as one, else
 * lines of comma-separated values (RFC 4180), also with semicolons or tabs. Without headings the
 * columns are chart, teeth, time, technique, room, day.
 */
export async function readAppointmentList(
  text: string,
  timeZone: string,
): Promise<AppointmentRows> {
  const clean = text.replace(/^\uFEFF/, "");
  return /^\s*BEGIN:VCALENDAR/i.test(clean)
    ? readCalendar(clean, timeZone)
    : { form: "lines", rows: await readLines(clean), skipped: [] };
}

async function readLines(text: string): Promise<Row[]> {
  const { default: papa } = await import("papaparse");
  const { data } = papa.parse<string[]>(text.trim(), {
    delimitersToGuess: [";", "\t", ",", "|"],
    skipEmptyLines: "greedy",
  });
  const [first, ...rest] = data;
  if (first === undefined) throw unreadable();
  const named = first.map(fieldOf);
  const hasHeadings = named.includes("chart");
  const columns = hasHeadings ? named : fields;
  return (hasHeadings ? rest : data).map((cells) => {
    const valueOf = (field: Field): string => {
      const at = columns.indexOf(field);
      return at === -1 ? "" : cut(cells[at]);
    };
    return Object.fromEntries(fields.map((field) => [field, valueOf(field)])) as unknown as Row;
  });
}

function fieldOf(heading: string): Field | undefined {
  const name = heading.trim().toLowerCase();
  return fields.find((field) => headings[field].includes(name));
}

/**
 * The events of a calendar. The summary holds the chart number and the teeth, such as
 * `C-1001 16 26`; the place is the room, the first category the technique.
 */
async function readCalendar(text: string, timeZone: string): Promise<AppointmentRows> {
  const { default: ical } = await import("ical.js");
  let events;
  try {
    events = new ical.Component(ical.parse(text)).getAllSubcomponents("vevent");
  } catch {
    throw unreadable();
  }
  const rows: Row[] = [];
  const skipped: AppointmentRows["skipped"] = [];
  for (const event of events) {
    const valueOf = (name: string): string => cut(String(event.getFirstPropertyValue(name) ?? ""));
    const start = event.getFirstProperty("dtstart");
    const time = start?.getFirstValue();
    const summary = valueOf("summary");
    const why = whySkipped({
      repeats: event.hasProperty("rrule") || event.hasProperty("rdate"),
      wholeDay: !(time instanceof ical.Time) || time.isDate,
      cancelled: valueOf("status") === "CANCELLED",
    });
    if (why !== null || !(time instanceof ical.Time)) {
      skipped.push({ text: summary, why: why ?? "whole-day" });
      continue;
    }
    const zone = time.zone === ical.Timezone.utcTimezone ? "UTC" : start?.getFirstParameter("tzid");
    const [chart = "", ...teeth] = summary.split(/\s+/);
    rows.push({
      chart,
      teeth: teeth.join(" "),
      technique: valueOf("categories"),
      room: valueOf("location"),
      ...clockHere(time.toString(), zone ?? null, timeZone),
    });
  }
  return { form: "icalendar", rows, skipped };
}

function whySkipped(found: { repeats: boolean; wholeDay: boolean; cancelled: boolean }) {
  if (found.cancelled) return "cancelled" as const;
  if (found.repeats) return "repeats" as const;
  return found.wholeDay ? ("whole-day" as const) : null;
}

/** A local time, or one of another zone, by the clock of the practice (RFC 5545, 3.3.5). */
function clockHere(
  local: string,
  zone: string | null,
  timeZone: string,
): { day: string; time: string } {
  const [day = "", time = ""] = local.replace("Z", "").split("T");
  const clock = { day, time: time.slice(0, 5) };
  if (zone === null || zone === timeZone || !isTimeZone(zone)) return clock;
  const instant = instantOfClock(clock.day, clock.time, zone);
  // Left out in its own zone: as it was written, it is found wrong or right here.
  return instant === null ? clock : clockAt(instant, timeZone);
}

const unreadable = () =>
  new Problem(
    "list-unreadable",
    "The list is no CSV and no iCalendar. Save it as one of them, or type the lines.",
  );
