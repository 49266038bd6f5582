import { expect, test } from "@jest/globals";
import type { SettledAppointment } from "#domain";
import { judgeLines, spanOf } from "./import-lines.ts";

const at = "2026-06-15T07:30:00.000Z";
const good = (chartNumber: string, appointmentAt = at): SettledAppointment => ({
  ok: true,
  chartNumber,
  teeth: ["16"],
  techniqueId: "t",
  locationId: "r",
  appointmentAt,
});

test("a line is new unless it is planned, stands above, or is wrong", () => {
  const visits = [{ trayId: "tray", chartNumber: "C-2", appointmentAt: at }];
  const wrong: SettledAppointment = { ok: false, faults: ["no-chart"] };
  const later = good("C-2", "2026-06-15T08:00:00.000Z");
  const settled = [good("C-1"), good("C-2"), wrong, good("C-1"), later, good("C-2")];
  expect(judgeLines(settled, visits)).toEqual([
    { kind: "new", visit: settled[0] },
    { kind: "planned", trayId: "tray" },
    { kind: "wrong", faults: ["no-chart"] },
    { kind: "double", line: 1 },
    { kind: "new", visit: later },
    { kind: "double", line: 2 },
  ]);
});

test("the span of no visit is none", () => {
  expect(spanOf([])).toBeNull();
  expect(spanOf(["2026-06-15", "2026-05-01"])).toEqual({ first: "2026-05-01", last: "2026-06-15" });
});
