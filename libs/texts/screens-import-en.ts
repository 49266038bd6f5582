const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** The texts of planning from an appointment list, in English. Own wording. */
export const importEn = {
  title: "Plan from a list",
  lead:
    "Type the day's visits, or take over a list as CSV or iCalendar. Nothing is planned before you " +
    "have looked at every line.",
  text: "One visit a line",
  textHint: "Chart; teeth; time; technique; room. What is not said is as chosen here.",
  file: "Or a file",
  day: "Day",
  technique: "Technique",
  room: "Room",
  read: "Read the list",
  none: "There is no visit in it.",
  lines: (count: number) => plural(count, "visit read", "visits read"),
  skipped: (text: string, why: string) => `${text}: ${why}`,
  skippedTitle: "Left out",
  whys: {
    repeats: "it repeats; plan it by hand",
    "whole-day": "it is for a whole day",
    "no-time": "its time cannot be read",
    cancelled: "it is cancelled",
    "unknown-zone": "its time zone is not known",
  },
  line: (line: number) => `Line ${line}`,
  chart: "Chart",
  teeth: "Teeth",
  time: "Time",
  usual: (name: string) => `as chosen: ${name}`,
  take: "Take it",
  becomes: (teeth: string, when: string) => `tooth ${teeth}, ${when}`,
  double: (line: number) => `the same visit as line ${line}`,
  faults: {
    "no-chart": "no chart number",
    "no-tooth": "no tooth",
    "unknown-tooth": "one is no tooth",
    "tooth-twice": "a tooth stands there twice",
    "unknown-technique": "there is no technique of that name",
    "unknown-room": "there is no operatory of that name",
    "no-day": "no day such as 2026-06-15",
    "no-time": "no time such as 9:30",
    "time-left-out": "the change to summer time leaves this time out",
  },
  plan: (count: number) => `Plan ${plural(count, "visit", "visits")}`,
  outcomes: {
    planned: "planned",
    "already-planned": "was planned already",
    refused: "refused",
  },
  open: "Open",
  done: (count: number) => `${plural(count, "visit is", "visits are")} planned.`,
};
