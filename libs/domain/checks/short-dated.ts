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
  run: (context) => {
    const limit = context.facts.settings.shortDatedDays;
    const enough = addDays(context.today, limit);
    return checkItems(context, (item) => {
      const { end } = item;
      if (end === null || end.date < context.lastDay || end.date >= enough) return null;
      const daysLeft = daysBetween(context.today, end.date);
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
    });
  },
};
