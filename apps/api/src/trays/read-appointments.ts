import { readStart } from "#domain";
import type { AppointmentRows } from "#contracts/trays";
import { Problem } from "../http/problem.ts";
import { cut, readCalendar } from "./read-calendar.ts";

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
/** As many visits as are planned in one go. */
const mostRows = 200;

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
  const isCalendar = /^\s*BEGIN:VCALENDAR/i.test(clean);
  const read = isCalendar
    ? await readCalendar(clean, timeZone)
    : { rows: await readLines(clean, timeZone), skipped: [] };
  if (read === null) throw unreadable();
  const { rows, skipped } = read;
  if (rows.length > mostRows) {
    throw unreadable(`${rows.length} visits; ${mostRows} are read at a time, so give it in parts`);
  }
  return { form: isCalendar ? "icalendar" : "lines", rows, skipped };
}

async function readLines(text: string, timeZone: string): Promise<Row[]> {
  const { default: papa } = await import("papaparse");
  const { data, errors } = papa.parse<string[]>(text.trim(), {
    delimitersToGuess: [";", "\t", ",", "|"],
    skipEmptyLines: "greedy",
  });
  const broken = errors.find(({ type }) => type === "Quotes");
  if (broken !== undefined) {
    throw unreadable(`line ${(broken.row ?? 0) + 1}: a quotation mark stands alone`);
  }
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
    const told = { day: valueOf("day"), time: valueOf("time") };
    return {
      ...{ chart: valueOf("chart"), teeth: valueOf("teeth") },
      ...{ technique: valueOf("technique"), room: valueOf("room") },
      ...readStart(told, timeZone),
    };
  });
}

function fieldOf(heading: string): Field | undefined {
  const name = heading.trim().toLowerCase();
  return fields.find((field) => headings[field].includes(name));
}

function unreadable(message = "no CSV and no iCalendar"): Problem {
  const detail = `The list cannot be read: ${message}. Mend it, or type the lines.`;
  return new Problem("list-unreadable", detail, { errors: [{ path: "/body/text", message }] });
}
