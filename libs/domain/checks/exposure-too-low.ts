import { planCure } from "../light-plan.ts";
import { aboutItem, checkItemsAtSteps, type Check } from "./check.ts";

/** Rounded down, so that what is said is never more than what is given. */
const joulesOf = (mj: number): number => Math.floor(mj / 100) / 10;

/**
 * The light gives less radiant exposure in the planned time than the product's IFU asks for. Says
 * the whole seconds that would do. Source: as `planCure`; what is needed, the product's IFU.
 */
export const exposureTooLow: Check = {
  code: "exposure-too-low",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItemsAtSteps(context, ({ item, product, step }) => {
      const { light } = context.facts;
      const cure = planCure(step, product, light);
      if (light === null || cure === null || cure.givenMjPerCm2 >= cure.neededMjPerCm2) return null;
      const { seconds, enoughSeconds } = cure;
      const irradiance = cure.at.irradianceMwPerCm2;
      const neededJ = cure.neededMjPerCm2 / 1000;
      const distanceMm = cure.distanceTenthMm / 10;
      return {
        subject: aboutItem(item, step),
        numbers: {
          reason: cure.at.known,
          step: step.name,
          light: light.name,
          seconds,
          irradiance,
          distanceMm,
          givenJ: joulesOf(cure.givenMjPerCm2),
          neededJ,
          ...(enoughSeconds !== null && { enoughSeconds }),
        },
        remedy:
          enoughSeconds === null
            ? { code: "change-light", numbers: { light: light.name } }
            : { code: "cure-longer", numbers: { enoughSeconds, step: step.name } },
        because: [
          { what: "planned-cure", value: seconds, from: "technique" },
          { what: "irradiance", value: irradiance, from: "light" },
          { what: "light-distance", value: distanceMm, from: "technique" },
          { what: "needed-exposure", value: neededJ, from: "ifu" },
        ],
        until: null,
      };
    }),
};
