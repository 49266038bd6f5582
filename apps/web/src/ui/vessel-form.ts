import type { ProductKind } from "#domain";

/** What a container looks like from outside. */
export type Form = "bottle" | "syringe" | "tube";

/** The usual form by what is in it (common practice, no source). */
export const forms: Readonly<Record<ProductKind, Form>> = {
  etchant: "syringe",
  primer: "bottle",
  adhesive: "bottle",
  "universal-adhesive": "bottle",
  activator: "bottle",
  flowable: "syringe",
  composite: "syringe",
  "glycerin-gel": "syringe",
  "other-barrier": "syringe",
  "separating-agent": "bottle",
  "provisional-cement": "tube",
  "bonding-cement": "tube",
  "surface-cleaner": "bottle",
};
