import { describe, expect, test } from "@jest/globals";
import {
  readDay,
  readStart,
  settleAppointment,
  type AppointmentRow,
  type KnownForAppointments,
} from "./appointment-row.ts";

const known: KnownForAppointments = {
  techniques: [
    { id: "t1", name: "Sealing" },
    { id: "t2", name: "Bonding" },
    { id: "t3", name: "Twin" },
    { id: "t4", name: "twin" },
  ],
  rooms: [{ id: "r1", name: "Operatory 1" }],
  timeZone: "Europe/Berlin",
  notation: "fdi",
  usual: { techniqueId: "t1", locationId: "r1", day: "2026-06-15" },
};
const row = (facts: Partial<AppointmentRow> = {}): AppointmentRow => ({
  chart: "C-1",
  teeth: "16 26",
  technique: "",
  room: "",
  day: "",
  time: "9:30",
  at: null,
  ...facts,
});
const faultsOf = (facts: Partial<AppointmentRow>) => {
  const settled = settleAppointment(row(facts), known);
  return settled.ok ? [] : settled.faults;
};

describe("a line of an appointment list", () => {
  test("becomes a visit, with what is usual where it says nothing", () => {
    expect(settleAppointment(row(), known)).toEqual({
      ok: true,
      chartNumber: "C-1",
      teeth: ["16", "26"],
      techniqueId: "t1",
      locationId: "r1",
      appointmentAt: "2026-06-15T07:30:00.000Z",
    });
  });

  test("is read by names, German days and the notation of the practice", () => {
    const told = row({
      technique: " bonding ",
      room: "OPERATORY 1",
      day: "5.1.2026",
      teeth: "3,A",
    });
    const universal = { ...known, notation: "universal" as const };
    expect(settleAppointment(told, universal)).toMatchObject({
      techniqueId: "t2",
      teeth: ["16", "55"],
      appointmentAt: "2026-01-05T08:30:00.000Z",
    });
  });

  test.each<[Partial<AppointmentRow>, readonly string[]]>([
    [{ chart: " " }, ["no-chart"]],
    [{ teeth: "" }, ["no-tooth"]],
    [{ teeth: "16 99" }, ["unknown-tooth"]],
    [{ teeth: "16 16" }, ["tooth-twice"]],
    [{ technique: "Polishing" }, ["unknown-technique"]],
    [{ technique: "Twin" }, ["unknown-technique"]],
    [{ room: "Cellar" }, ["unknown-room"]],
    [{ day: "06/15/2026" }, ["no-day"]],
    [{ day: "31.2.2026" }, ["no-day"]],
    [{ time: "25:00" }, ["no-time"]],
    // Left out when summer time begins.
    [{ day: "2026-03-29", time: "02:30" }, ["time-left-out"]],
    [{ chart: "", teeth: "", time: "" }, ["no-chart", "no-tooth", "no-time"]],
  ])("%j is wrong: %j", (facts, faults) => expect(faultsOf(facts)).toEqual(faults));
});

test.each([
  ["2026-06-15", "2026-06-15"],
  [" 1.2.2026 ", "2026-02-01"],
  ["1.2.26", null],
  ["tomorrow", null],
])("the day %j is %j", (text, day) => expect(readDay(text)).toBe(day));

describe("a start", () => {
  test.each([
    [
      { day: "", time: "2026-06-15 9:30" },
      { day: "2026-06-15", time: "09:30" },
    ],
    [
      { day: "", time: "2026-06-15T09:30:00" },
      { day: "2026-06-15", time: "09:30" },
    ],
    [
      { day: "", time: "15.6.2026, 9.30 Uhr" },
      { day: "15.6.2026", time: "09:30" },
    ],
    [
      { day: "1.2.2026", time: "09:30:00" },
      { day: "1.2.2026", time: "09:30" },
    ],
    // A day of its own is not written over.
    [
      { day: "1.2.2026", time: "2026-06-15 9:30" },
      { day: "1.2.2026", time: "2026-06-15 9:30" },
    ],
    [
      { day: "", time: "soon" },
      { day: "", time: "soon" },
    ],
    // There is no such day.
    [
      { day: "", time: "2026-02-30T09:30:00Z" },
      { day: "2026-02-30", time: "09:30:00Z" },
    ],
  ])("%j is read as %j", (told, start) => {
    expect(readStart(told, "Europe/Berlin")).toEqual({ ...start, at: null });
  });

  // ISO 8601: Z is universal time; the hour of 25 October 2026 that comes twice in Germany.
  test("with a zone keeps its instant, also of an hour that comes twice", () => {
    const second = "2026-10-25T01:30:00.000Z";
    const start = readStart({ day: "", time: "2026-10-25T01:30:00Z" }, "Europe/Berlin");
    expect(start).toEqual({ day: "2026-10-25", time: "02:30", at: second });
    expect(settleAppointment(row(start), known)).toMatchObject({ appointmentAt: second });
    const typed = row({ ...start, at: null });
    const first = "2026-10-25T00:30:00.000Z";
    expect(settleAppointment(typed, known)).toMatchObject({ appointmentAt: first });
    // Once a person has changed the time, the list's instant counts no more.
    const changed = row({ ...start, time: "03:30" });
    const later = "2026-10-25T02:30:00.000Z";
    expect(settleAppointment(changed, known)).toMatchObject({ appointmentAt: later });
    const offset = readStart({ day: "", time: "2026-06-15T09:30:00+05:30" }, "Europe/Berlin");
    expect(offset).toMatchObject({ time: "06:00", at: "2026-06-15T04:00:00.000Z" });
  });
});
