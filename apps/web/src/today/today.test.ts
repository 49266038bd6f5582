import { describe, expect, test } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { hourAt, placeHour, spanDay, stackRows } from "./day-line.ts";
import { rankNeeds, type TodayTray } from "./urgency.ts";

type Today = AnswerOf<"getToday">;

const tray = (id: string, facts: Partial<TodayTray>): TodayTray => ({
  id,
  chartNumber: "C-1",
  teeth: ["16"],
  techniqueName: "T",
  locationName: "Room 1",
  appointmentAt: "2026-03-02T09:00:00Z",
  state: "setting",
  verdict: "clear",
  missing: 0,
  items: 5,
  records: [],
  ...facts,
});
const container = (id: string, endsOn: string) =>
  ({ id, endsOn: { date: endsOn, decidedBy: "use-by" } }) as Today["ending"][number];

const quiet: Today = {
  on: "2026-03-02",
  at: "2026-03-02T08:00:00Z",
  trays: [],
  ending: [],
  drafts: [],
  withdrawals: [],
  waiting: { overdue: 0, longestDays: 0, limitDays: 21 },
  lights: [],
  excursions: [],
  unconfirmed: [],
};
const keysOf = (today: Partial<Today>) => rankNeeds({ ...quiet, ...today }).map(({ key }) => key);

describe("what needs somebody", () => {
  test("is a place that was too warm, and then the lights as one line", () => {
    const lights = [
      { id: "a", name: "Lamp 1", state: "due" as const },
      { id: "b", name: "Lamp 2", state: "weak" as const },
    ];
    const excursions = [{ id: "x", place: "Fridge", from: "2026-03-01T20:00:00Z", containers: 3 }];
    expect(keysOf({ lights, excursions })).toEqual(["x", "lights"]);
    expect(rankNeeds({ ...quiet, lights })[0]?.tone).toBe("stop");
    expect(rankNeeds({ ...quiet, lights: [lights[0]!] })[0]?.tone).toBe("caution");
  });

  test("is nothing on a day whose trays are clear, in use or cleared", () => {
    const trays = [
      tray("clear", {}),
      tray("in use", { verdict: "stop", records: [{ id: "r1", tooth: "16", state: "draft" }] }),
      tray("cleared", { verdict: "stop", state: "cleared" }),
    ];
    expect(keysOf({ trays })).toEqual([]);
  });

  test("comes in the order in which it must be answered", () => {
    const today: Partial<Today> = {
      trays: [
        tray("later", { verdict: "stop", appointmentAt: "2026-03-02T15:00:00Z" }),
        tray("soon", { verdict: "stop", appointmentAt: "2026-03-02T09:59:00Z" }),
        tray("look", { verdict: "caution", appointmentAt: "2026-03-02T09:00:00Z" }),
      ],
      ending: [container("ends soon", "2026-03-09"), container("expired", "2026-03-01")],
      drafts: [
        { recordId: "draft", trayId: "t", chartNumber: "C", tooth: "16", startedAt: quiet.at },
      ],
      withdrawals: [
        { id: "gone", reference: "W2", receivedAt: quiet.at, here: 0 },
        { id: "here", reference: "W1", receivedAt: quiet.at, here: 2 },
      ],
      waiting: { overdue: 2, longestDays: 30, limitDays: 21 },
      unconfirmed: [{ id: "product", name: "P" }],
    };
    expect(keysOf(today)).toEqual([
      "here",
      "soon",
      "expired",
      "draft",
      "look",
      "later",
      "gone",
      "waiting",
      "ends soon",
      "product",
    ]);
  });

  test("counts a container on its last day as not yet past it", () => {
    const [first] = rankNeeds({ ...quiet, ending: [container("last day", "2026-03-02")] });
    expect(first?.need.kind).toBe("ending");
  });
});

describe("the line of the day", () => {
  test("shows the working day and grows to what lies outside of it", () => {
    expect(spanDay([])).toEqual({ firstHour: 8, lastHour: 17 });
    expect(spanDay([6.5, 19])).toEqual({ firstHour: 6, lastHour: 21 });
    expect(spanDay([0.2, 23.9])).toEqual({ firstHour: 0, lastHour: 24 });
  });

  test("places an hour in proportion", () => {
    expect(placeHour({ firstHour: 8, lastHour: 18 }, 13)).toBe(50);
  });

  test("puts trays that would lie on one another in rows of their own", () => {
    expect(stackRows([9, 9.5, 10, 11.2], 1.5)).toEqual([0, 1, 2, 0]);
  });

  test("reads the hour in the practice's zone, also where a clock was put forward", () => {
    expect(hourAt("2026-07-01T07:30:00Z", "Europe/Berlin")).toBe(9.5);
    expect(hourAt("2026-03-29T01:00:00Z", "Europe/Berlin")).toBe(3);
    expect(hourAt("2026-03-02T00:15:00Z", "UTC")).toBe(0.25);
  });
});
