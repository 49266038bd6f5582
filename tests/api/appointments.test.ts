/** Appointment lists: read as they are written, then planned line by line. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import type { BodyOf } from "#contracts/operations";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, type TestApp } from "../helpers/app.ts";
import { Maker } from "../helpers/make.ts";

let it: TestApp;
let make: Maker;
beforeAll(async () => {
  it = await openApp();
  make = await Maker.of(it.practice);
});
afterAll(() => it.close());

const read = (text: string) => it.practice.office.call("readAppointments", { body: { text } });
const row = (facts: object) => ({
  chart: "",
  teeth: "",
  technique: "",
  room: "",
  day: "",
  time: "",
  ...facts,
});
const calendar = (...events: string[][]) =>
  [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//fictional//",
    ...events.flatMap((lines) => ["BEGIN:VEVENT", "UID:1@example.com", ...lines, "END:VEVENT"]),
    "END:VCALENDAR",
    "",
  ].join("\r\n");

describe("a list of values", () => {
  test("is read by its headings, in any order and in German as well", async () => {
    const text =
      "\uFEFFDatum;Uhrzeit;Zahn;Aktennummer;Behandlung\r\n15.6.2026;9:30;16, 26;C-7;Test";
    expect((await read(text)).ok).toEqual({
      form: "lines",
      rows: [
        row({ day: "15.6.2026", time: "9:30", teeth: "16, 26", chart: "C-7", technique: "Test" }),
      ],
      skipped: [],
    });
  });

  test("is read in the usual order where it has none", async () => {
    const { rows } = (await read("C-1;16;09:30\n\nC-2;26 27;10:00;Sealing;Room 1")).ok;
    expect(rows).toEqual([
      row({ chart: "C-1", teeth: "16", time: "09:30" }),
      row({ chart: "C-2", teeth: "26 27", time: "10:00", technique: "Sealing", room: "Room 1" }),
    ]);
  });

  // RFC 4180, section 2, rules 5 to 7: quotes, line breaks and doubled quotes inside of quotes.
  test("keeps what stands in quotes", async () => {
    const text = 'chart,tooth,technique\r\n"C-1","16, 26","Seal ""A""\r\nand B"\r\n';
    expect((await read(text)).ok.rows).toEqual([
      row({ chart: "C-1", teeth: "16, 26", technique: 'Seal "A"\r\nand B' }),
    ]);
  });

  test("is refused where it is no text", async () => {
    expect((await read("PK\u0003\u0004\u0000\u0000")).problem).toBe("invalid-request");
    expect((await read(" \n ")).problem).toBe("list-unreadable");
    expect((await read("")).problem).toBe("invalid-request");
  });
});

describe("a calendar", () => {
  // RFC 5545, 3.3.5: the same moments in the three forms of its examples, by a clock in Berlin.
  test("tells the practice's own time of local, universal and zoned times", async () => {
    const { ok } = await read(
      calendar(
        ["DTSTART:19980118T230000", "SUMMARY:C-1 16"],
        ["DTSTART:19980119T070000Z", "SUMMARY:C-2 26 27"],
        ["DTSTART;TZID=America/New_York:19980119T020000", "SUMMARY:C-3 36"],
      ),
    );
    expect(ok.form).toBe("icalendar");
    expect(ok.rows).toEqual([
      row({ chart: "C-1", teeth: "16", day: "1998-01-18", time: "23:00" }),
      row({ chart: "C-2", teeth: "26 27", day: "1998-01-19", time: "08:00" }),
      row({ chart: "C-3", teeth: "36", day: "1998-01-19", time: "08:00" }),
    ]);
  });

  // RFC 5545, 3.1: a long line is folded; 3.3.11: commas are escaped.
  test("is unfolded, with its place and category", async () => {
    const lines = ["DTSTART:20260615T093000", "SUMMARY:C-1 1", " 6", "LOCATION:Room\\, left"];
    const { rows } = (await read(calendar([...lines, "CATEGORIES:Sealing"]))).ok;
    expect(rows).toEqual([
      row({
        ...{ chart: "C-1", teeth: "16", day: "2026-06-15", time: "09:30" },
        ...{ room: "Room, left", technique: "Sealing" },
      }),
    ]);
  });

  test("says which events are no single visit", async () => {
    const { ok } = await read(
      calendar(
        ["DTSTART:20260615T093000", "RRULE:FREQ=WEEKLY", "SUMMARY:weekly"],
        ["DTSTART;VALUE=DATE:20260615", "SUMMARY:holiday"],
        ["DTSTART:20260615T093000", "STATUS:CANCELLED", "SUMMARY:gone"],
      ),
    );
    expect(ok.rows).toEqual([]);
    expect(ok.skipped).toEqual([
      { text: "weekly", why: "repeats" },
      { text: "holiday", why: "whole-day" },
      { text: "gone", why: "cancelled" },
    ]);
  });

  test("is refused where it breaks off", async () => {
    expect((await read("BEGIN:VCALENDAR\r\nBEGIN:VEV")).problem).toBe("list-unreadable");
  });
});

describe("many visits", () => {
  const visit = (told: Partial<BodyOf<"planTray">> = {}): BodyOf<"planTray"> => ({
    chartNumber: make.name("C"),
    teeth: [{ tooth: "16" }],
    techniqueId: make.techniques["bond-restoration"]!,
    locationId: make.places.operatory,
    appointmentAt: "2026-06-17T08:00:00.000Z",
    ...told,
  });
  const plan = (visits: BodyOf<"planTray">[], key?: string) =>
    it.practice.assistant.call("planTrays", {
      body: { visits },
      ...(key === undefined ? {} : { key }),
    });
  const charts = async () => {
    const query = { on: "2026-06-17" };
    const { trays } = (await it.practice.office.call("listTrays", { query })).ok;
    return trays.map(({ chartNumber }) => chartNumber);
  };

  test("are planned but for those that cannot be, and none twice", async () => {
    const visits = [
      visit(),
      visit({ techniqueId: newId() }),
      visit({ teeth: [{ tooth: "11", surfaces: "MOD" }] }),
      visit({ teeth: [{ tooth: "18S" }] }),
    ];
    const { results } = (await plan(visits)).ok;
    expect(results.map(({ outcome }) => outcome)).toEqual([
      "planned",
      "refused",
      "refused",
      "planned",
    ]);
    expect(results[2]?.detail).toMatch(/no surfaces of tooth 11/);
    const again = (await plan(visits)).ok.results;
    expect(again.map(({ outcome }) => outcome)).toEqual([
      "already-planned",
      "refused",
      "refused",
      "already-planned",
    ]);
    expect(again[0]?.trayId).toBe(results[0]?.trayId);
    expect((await charts()).filter((one) => one === visits[0]!.chartNumber)).toHaveLength(1);
  });

  test("sent again with their key are answered as before", async () => {
    const visits = [visit(), visit()];
    const key = newId();
    const first = (await plan(visits, key)).ok;
    expect((await plan(visits, key)).ok).toEqual(first);
  });

  test("are as many as a day has at most", async () => {
    expect((await plan([])).problem).toBe("invalid-request");
    expect((await plan(Array.from({ length: 201 }, () => visit()))).problem).toBe(
      "invalid-request",
    );
  });
});
