const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** The texts about what changes by itself, in English. Own wording. */
export const liveEn = {
  title: "The check changed by itself",
  told: (count: number) => `The check of ${plural(count, "tray", "trays")} has changed`,
  look: "Look at it",
  line: (teeth: string, chart: string) => `Tooth ${teeth}, chart ${chart}`,
  from: (before: string, after: string) => `was ${before}, now ${after}`,
  causes: {
    "day-begun": "a new day has begun",
    "withdrawal-opened": "a withdrawal was entered",
    "withdrawal-closed": "a withdrawal was closed",
    "excursion-opened": "a temperature excursion was entered",
    "excursion-resolved": "a temperature excursion was settled",
    "product-changed": "a product was changed",
    "product-confirmed": "a product was confirmed",
    "checks-changed": "the settings of the checks were changed",
    "allergies-changed": "a patient's allergies were changed",
    "light-read": "a curing light was measured",
    "light-changed": "a curing light was changed",
  } as Readonly<Record<string, string>>,
  statistics: {
    title: "How often a finding was passed",
    lead: "A warning that is nearly always passed is one that nobody reads any more.",
    none: "Nothing was found yet.",
    columns: {
      month: "Month",
      finding: "Finding",
      level: "Level",
      seen: "Trays with it",
      wentAhead: "Started with it",
      share: "Share",
    },
  },
};
