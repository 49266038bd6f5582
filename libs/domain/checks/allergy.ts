import { listAllergens } from "../step-fit.ts";
import { aboutItem, checkItems, takeInstead, type Check } from "./check.ts";

/** A product contains what is on the patient's allergy list. Source: as `listAllergens`. */
export const allergy: Check = {
  code: "allergy",
  level: "stop",
  fixed: false,
  run: (context) =>
    checkItems(context, (item) => {
      if (item.product === null) return null;
      const allergens = listAllergens(context.facts.patient, item.product);
      if (allergens.length === 0) return null;
      const contents = allergens.join(",");
      return {
        subject: aboutItem(item),
        numbers: { contents },
        remedy: takeInstead(context, item),
        because: [
          { what: "contents", value: contents, from: "ifu" },
          { what: "allergies", value: context.facts.patient.allergies.join(","), from: "patient" },
        ],
        until: null,
      };
    }),
};
