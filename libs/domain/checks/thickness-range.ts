import { aboutStep, type Check } from "./check.ts";

/**
 * A coat was measured outside the range that the technique gives. Lengths in tenths of a
 * millimetre. Source: the technique's own range; a seal alone is 0 to over 500 micrometres thick
 * (Stavridakis 2005, from memory).
 */
export const thicknessRange: Check = {
  code: "thickness-range",
  level: "caution",
  fixed: false,
  run: ({ facts, steps }) =>
    facts.thicknesses.flatMap(({ tooth, stepKey, tenthMm }) => {
      const step = steps.find((one) => one.step.key === stepKey)?.step;
      const range = step?.thicknessTenthMm ?? null;
      if (step === undefined || range === null) return [];
      if (tenthMm >= range.min && tenthMm <= range.max) return [];
      const [measuredMm, minMm, maxMm] = [tenthMm / 10, range.min / 10, range.max / 10];
      return [
        {
          subject: { ...aboutStep(step), name: `${step.name}, ${tooth}` },
          numbers: {
            reason: tenthMm < range.min ? "thin" : "thick",
            tooth,
            measuredMm,
            minMm,
            maxMm,
          },
          remedy: { code: "look-at-coat", numbers: { step: step.name } },
          because: [
            { what: "measured-thickness", value: measuredMm, from: "record" },
            { what: "thinnest", value: minMm, from: "technique" },
            { what: "thickest", value: maxMm, from: "technique" },
          ],
          until: null,
        },
      ];
    }),
};
