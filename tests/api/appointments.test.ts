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
  at: null,
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
        row({ day: "15.6.2026", time: "09:30", teeth: "16, 26", chart: "C-7", technique: "Test" }),
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

  // RFC 4180, section 2, rule 5: a field that begins with a quote ends with one.
  test("is refused where a quote would swallow the lines that follow", async () => {
    const refused = await read('C-1,"16,09:30\r\nC-2,26,10:00\r\nC-3,36,11:00');
    expect(refused.problem).toBe("list-unreadable");
    expect(refused.body).toMatchObject({
      errors: [{ path: "/body/text", message: "line 1: a quotation mark stands alone" }],
    });
  });

  test("is refused where it is longer than what is planned at a time", async () => {
    const lines = (count: number) => Array.from({ length: count }, () => "C-1;16;09:30").join("\n");
    expect((await read(lines(200))).ok.rows).toHaveLength(200);
    const refused = await read(lines(201));
    expect(refused.problem).toBe("list-unreadable");
    expect(refused.text).toContain("201 visits");
  });

  test("may say day and time as one", async () => {
    const { rows } = (await read("Akte;Zahn;Start\nC-1;16;15.6.2026 9:30")).ok;
    expect(rows).toEqual([row({ chart: "C-1", teeth: "16", day: "15.6.2026", time: "09:30" })]);
  });

  test("is refused where it is no text", async () => {
    expect((await read("PK\u0003\u0004\u0000\u0000")).problem).toBe("invalid-request");
    expect((await read(" \n ")).problem).toBe("list-unreadable");
    expect((await read("")).problem).toBe("invalid-request");
  });
});

describe("a calendar", () => {
  // RFC 5545, 3.3.5: the same moments in the three forms of its examples, by a clock in Berlin.
  const seven = "1998-01-19T07:00:00.000Z";
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
      row({ chart: "C-2", teeth: "26 27", day: "1998-01-19", time: "08:00", at: seven }),
      row({ chart: "C-3", teeth: "36", day: "1998-01-19", time: "08:00", at: seven }),
    ]);
  });

  // RFC 5545, 3.3.5: "TZID=America/New_York:20070311T023000 indicates March 11, 2007 at 3:30 A.M.
  // EDT" and "TZID=America/New_York:20071104T013000 indicates November 4, 2007 at 1:30 A.M. EDT".
  test("reads times at the changes of the clock as the standard says", async () => {
    const { rows } = (
      await read(
        calendar(
          ["DTSTART;TZID=America/New_York:20070311T023000", "SUMMARY:C-1 16"],
          ["DTSTART;TZID=America/New_York:20071104T013000", "SUMMARY:C-2 16"],
        ),
      )
    ).ok;
    expect(rows.map(({ at }) => at)).toEqual([
      "2007-03-11T07:30:00.000Z",
      "2007-11-04T05:30:00.000Z",
    ]);
  });

  // RFC 5545, 3.6.5: the simple example of the rules for New York from 2007 on; its name here is
  // one that only this calendar describes.
  test("goes by the zones that it describes itself, and leaves out those it does not", async () => {
    const zone = [
      ...["BEGIN:VTIMEZONE", "TZID:Eastern of this calendar"],
      ...["BEGIN:STANDARD", "DTSTART:20071104T020000"],
      ...["RRULE:FREQ=YEARLY;BYDAY=1SU;BYMONTH=11"],
      ...["TZOFFSETFROM:-0400", "TZOFFSETTO:-0500", "TZNAME:EST", "END:STANDARD"],
      ...["BEGIN:DAYLIGHT", "DTSTART:20070311T020000", "RRULE:FREQ=YEARLY;BYDAY=2SU;BYMONTH=3"],
      ...["TZOFFSETFROM:-0500", "TZOFFSETTO:-0400", "TZNAME:EDT", "END:DAYLIGHT"],
      "END:VTIMEZONE",
    ].join("\r\n");
    const text = calendar(
      ["DTSTART;TZID=Eastern of this calendar:20260615T033000", "SUMMARY:C-1 16"],
      ["DTSTART;TZID=Eastern of this calendar:20260115T033000", "SUMMARY:C-2 16"],
      ["DTSTART;TZID=Nobody knows:20260115T033000", "SUMMARY:C-3 16"],
    ).replace("BEGIN:VEVENT", `${zone}\r\nBEGIN:VEVENT`);
    const { rows, skipped } = (await read(text)).ok;
    expect(rows.map(({ chart, time, at }) => [chart, time, at])).toEqual([
      ["C-1", "09:30", "2026-06-15T07:30:00.000Z"],
      ["C-2", "09:30", "2026-01-15T08:30:00.000Z"],
    ]);
    expect(skipped).toEqual([{ text: "C-3 16", why: "unknown-zone" }]);
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

  test("leaves out times that are none, and reads the rest", async () => {
    const { ok } = await read(
      calendar(
        ["DTSTART:20260230T093000", "SUMMARY:no day"],
        ["DTSTART:20260615T253000Z", "SUMMARY:no hour"],
        ["DTSTART:soon", "SUMMARY:no time"],
        ["SUMMARY:nothing"],
        ["DTSTART:20260615T093000", "SUMMARY:C-1 16"],
      ),
    );
    expect(ok.rows.map(({ chart }) => chart)).toEqual(["C-1"]);
    expect(ok.skipped.map(({ text }) => text)).toEqual(["no day", "no hour", "no time", "nothing"]);
    expect(new Set(ok.skipped.map(({ why }) => why))).toEqual(new Set(["no-time"]));
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

  test("of two lists at the same moment are planned once", async () => {
    const visits = Array.from({ length: 5 }, () => visit());
    const both = await Promise.all([plan(visits), plan(visits)]);
    const outcomes = both.flatMap(({ ok }) => ok.results.map(({ outcome }) => outcome));
    expect(outcomes.filter((one) => one === "planned")).toHaveLength(5);
    expect(outcomes.filter((one) => one === "already-planned")).toHaveLength(5);
  });

  test("are found again by their days", async () => {
    // Midnight in Berlin is ten in the evening of the day before in UTC.
    const late = visit({ appointmentAt: "2026-06-18T21:59:00.000Z" });
    const next = visit({ appointmentAt: "2026-06-18T22:00:00.000Z" });
    const [first, second] = (await plan([late, next])).ok.results;
    const on = async (from: string, to: string) => {
      const { visits } = (await it.practice.office.call("listVisits", { query: { from, to } })).ok;
      return visits.map(({ trayId }) => trayId);
    };
    expect(await on("2026-06-18", "2026-06-18")).toEqual([first?.trayId]);
    expect(await on("2026-06-18", "2026-06-19")).toEqual([first?.trayId, second?.trayId]);
    expect(await on("2026-06-19", "2026-06-18")).toEqual([]);
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
