/**
 * A line of an appointment list, as it was written, and what it becomes. Names are compared without
 * regard to case and outer spaces; nothing is guessed: what is not known is said. Own rules, no
 * source.
 */
import { isCivilDate } from "./civil-date.ts";
import { clockAt, instantOfClock } from "./clock-time.ts";
import { readToothIn, type ToothNotation } from "./teeth.ts";

/** A line as it was written. */
export interface AppointmentRow {
  chart: string;
  /** Apart by spaces, commas or semicolons, in the practice's notation. */
  teeth: string;
  /** Names, or empty for what is usual. */
  technique: string;
  room: string;
  /** `YYYY-MM-DD` or `DD.MM.YYYY`, or empty for what is usual. */
  day: string;
  /** `HH:MM` or `H:MM`. */
  time: string;
  /** The instant, where the list says it: it counts as long as day and time are not changed. */
  at: string | null;
}

export interface Named {
  id: string;
  name: string;
}
export interface KnownForAppointments {
  techniques: readonly Named[];
  rooms: readonly Named[];
  timeZone: string;
  notation: ToothNotation;
  /** What a line means that does not say it. */
  usual: { techniqueId: string; locationId: string; day: string };
}

export const appointmentFaults = [
  "no-chart",
  "no-tooth",
  "unknown-tooth",
  "tooth-twice",
  "unknown-technique",
  "unknown-room",
  "no-day",
  "no-time",
  "time-left-out",
] as const;
export type AppointmentFault = (typeof appointmentFaults)[number];

/** What a line becomes, or all that is wrong with it. */
export type SettledAppointment =
  | {
      ok: true;
      chartNumber: string;
      teeth: readonly string[];
      techniqueId: string;
      locationId: string;
      appointmentAt: string;
    }
  | { ok: false; faults: readonly AppointmentFault[] };

/** A day as people write it, as a civil date; `null` for another text. */
export function readDay(text: string): string | null {
  const dotted = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(text.trim());
  const [, day = "", month = "", year = ""] = dotted ?? [];
  const civil =
    dotted === null ? text.trim() : `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  return isCivilDate(civil) ? civil : null;
}

const dateTime = /^(\d{4}-\d\d-\d\d|\d{1,2}\.\d{1,2}\.\d{4})(?:T|,?\s+)(.+)$/;
const zoned = /^\d{4}-\d\d-\d\dT\d\d:\d\d(?::\d\d(?:\.\d+)?)?(?:Z|[+-]\d\d:?\d\d)$/;
const clockTime = /^(\d{1,2})[:.](\d\d)(?::\d\d)?(?: Uhr)?$/;

/**
 * Day and time as a list says them, also in one field such as `2026-06-15 9:30`, `15.6.2026 9.30`,
 * or `2026-06-15T07:30:00Z` (ISO 8601), whose instant is shown by a clock in the zone. What is none
 * of these stays as it is.
 */
export function readStart(
  told: { day: string; time: string },
  timeZone: string,
): Pick<AppointmentRow, "day" | "time" | "at"> {
  const isInstant = zoned.test(told.time) && isCivilDate(told.time.slice(0, 10));
  const instant = isInstant ? Date.parse(told.time) : Number.NaN;
  if (!Number.isNaN(instant)) {
    const at = new Date(instant).toISOString();
    return { ...clockAt(at, timeZone), at };
  }
  const [, day, rest] = dateTime.exec(told.time) ?? [];
  const isOne = told.day.trim() === "" && day !== undefined;
  const time = (isOne ? rest : undefined) ?? told.time;
  const [, hour = "", minute = ""] = clockTime.exec(time) ?? [];
  return {
    day: isOne ? day : told.day,
    time: hour === "" ? time : `${hour.padStart(2, "0")}:${minute}`,
    at: null,
  };
}

/** What a line becomes in a practice; errors: `appointmentFaults`, as many as there are. */
export function settleAppointment(
  row: AppointmentRow,
  known: KnownForAppointments,
): SettledAppointment {
  const faults: AppointmentFault[] = [];
  const note = (fault: AppointmentFault): void => void faults.push(fault);
  const chartNumber = row.chart.trim();
  if (chartNumber === "" || chartNumber.length > 40) note("no-chart");
  const teeth = readTeeth(row.teeth, known.notation, note);
  const techniqueId = findNamed(row.technique, known.techniques, known.usual.techniqueId);
  if (techniqueId === null) note("unknown-technique");
  const locationId = findNamed(row.room, known.rooms, known.usual.locationId);
  if (locationId === null) note("unknown-room");
  const appointmentAt = readTime(row, known, note);
  if (faults.length > 0 || appointmentAt === null || techniqueId === null || locationId === null) {
    return { ok: false, faults };
  }
  return { ok: true, chartNumber, teeth, techniqueId, locationId, appointmentAt };
}

function readTeeth(
  text: string,
  notation: ToothNotation,
  note: (fault: AppointmentFault) => void,
): readonly string[] {
  const typed = text.split(/[\s,;/+]+/).filter((part) => part !== "");
  if (typed.length === 0 || typed.length > 16) note("no-tooth");
  const read = typed.map((part) => readToothIn(notation, part));
  const teeth = read.filter((one): one is string => one !== null);
  if (teeth.length < read.length) note("unknown-tooth");
  if (new Set(teeth).size < teeth.length) note("tooth-twice");
  return teeth;
}

const plain = (text: string): string => text.trim().toLocaleLowerCase("en");

function findNamed(text: string, among: readonly Named[], usual: string): string | null {
  if (text.trim() === "") return among.some(({ id }) => id === usual) ? usual : null;
  const found = among.filter(({ name }) => plain(name) === plain(text));
  // Two of one name cannot be told apart here.
  return found.length === 1 ? found[0]!.id : null;
}

function readTime(
  row: AppointmentRow,
  known: KnownForAppointments,
  note: (fault: AppointmentFault) => void,
): string | null {
  const day = row.day.trim() === "" ? known.usual.day : readDay(row.day);
  if (day === null) note("no-day");
  const time = row.time.trim().padStart(5, "0");
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(time)) {
    note("no-time");
    return null;
  }
  if (day === null) return null;
  if (row.at !== null) {
    const shown = clockAt(row.at, known.timeZone);
    if (shown.day === day && shown.time === time) return row.at;
  }
  const instant = instantOfClock(day, time, known.timeZone);
  if (instant === null) note("time-left-out");
  return instant;
}
