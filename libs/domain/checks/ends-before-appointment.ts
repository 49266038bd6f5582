import { addDays } from "../civil-date.ts";
import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/**
 * The container is in date on the day of the check and no longer on the day of the appointment.
 * Source: common practice, no source.
 */
export const endsBeforeAppointment: Check = {
  code: "ends-before-appointment",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      const { end } = item;
      const appointment = context.appointmentDay;
      if (end === null || end.date < context.today || end.date >= appointment) return null;
      return {
        subject: aboutItem(item),
        numbers: { reason: end.decidedBy, end: end.date, appointment },
        remedy: takeInstead(context, item),
        because: [
          {
            what: end.decidedBy === "use-by" ? "use-by" : "usable-through",
            value: end.date,
            from: end.decidedBy === "use-by" ? "label" : "ifu",
          },
          { what: "appointment", value: appointment, from: "practice" },
        ],
        until: addDays(end.date, 1),
      };
    }),
};
