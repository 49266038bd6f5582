import { addDays, daysBetween } from "../civil-date.ts";
import { aboutItem, checkItems, type Check } from "./check.ts";

/**
 * The container holds over the appointment and ends fewer days from the day of the check than the
 * practice wants. Source: common practice, no source; the number of days is the practice's setting.
 */
export const shortDated: Check = {
  code: "short-dated",
  level: "caution",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { end } = item;
      if (end === null || end.date < context.lastDay) return null;
      const daysLeft = daysBetween(context.today, end.date);
      const limit = context.facts.settings.shortDatedDays;
      if (daysLeft >= limit) return null;
      return {
        subject: aboutItem(item),
        numbers: { end: end.date, daysLeft, limit },
        remedy: { code: "use-soon", numbers: {} },
        because: [
          {
            what: end.decidedBy === "use-by" ? "use-by" : "usable-through",
            value: end.date,
            from: end.decidedBy === "use-by" ? "label" : "ifu",
          },
          { what: "days-left", value: daysLeft, from: "reading" },
          { what: "short-dated-days", value: limit, from: "practice" },
        ],
        until: addDays(end.date, 1),
      };
    }),
};
