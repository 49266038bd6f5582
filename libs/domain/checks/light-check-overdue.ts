import { daysBetween } from "../civil-date.ts";
import { outputAtTip, plannedCureSeconds } from "../light-plan.ts";
import { aboutLight, type Check } from "./check.ts";

/**
 * The light that the technique cures with was not measured within the practice's days, or never; or
 * its last reading at the tip is below the practice's floor, which is a stop. Source: a radiometer
 * weekly to monthly is common practice, no source; a floor is needed since an output fades (300
 * mW/cm2 historically, JADA 2002;133:429).
 */
export const lightCheckOverdue: Check = {
  code: "light-check-overdue",
  level: "caution",
  fixed: false,
  run: (context) => {
    const { light, settings } = context.facts;
    const step = context.steps.find((one) => plannedCureSeconds(one.step, one.items) > 0)?.step;
    if (light === null || step === undefined) return [];
    const subject = aboutLight(light, step);
    const output = outputAtTip(light);
    const { lightFloorMwCm2: floor, lightCheckDays: limit } = settings;
    if (output !== null && output < floor) {
      return [
        {
          level: "stop",
          subject,
          numbers: { reason: "weak", output, floor },
          remedy: { code: "change-light", numbers: { light: light.name } },
          because: [
            { what: "irradiance", value: output, from: "light" },
            { what: "light-floor", value: floor, from: "practice" },
          ],
          until: null,
        },
      ];
    }
    const days = light.readOn === null ? null : daysBetween(light.readOn, context.today);
    if (days !== null && days <= limit) return [];
    return [
      {
        subject,
        numbers:
          light.readOn === null || days === null
            ? { reason: "never" }
            : { reason: "overdue", readOn: light.readOn, days, limit },
        remedy: { code: "measure-light", numbers: { light: light.name } },
        because: [
          ...(light.readOn === null
            ? []
            : [{ what: "light-read", value: light.readOn, from: "light" as const }]),
          { what: "light-days", value: limit, from: "practice" },
        ],
        until: null,
      },
    ];
  },
};
