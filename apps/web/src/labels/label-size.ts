import type { ProductKind } from "#domain";
import { forms } from "../ui/vessel-form.ts";

/** Sizes of a label, each cut for one thing. */
export type LabelSize = "bottle" | "syringe" | "place";
export const labelSizes: readonly LabelSize[] = ["bottle", "syringe", "place"];

/** So many things one run has labels of. */
export const mostLabels = 500;

/** The size that fits most of the containers. */
export function sizeFor(kinds: readonly ProductKind[]): LabelSize {
  const syringes = kinds.filter((kind) => forms[kind] === "syringe").length;
  return syringes > kinds.length / 2 ? "syringe" : "bottle";
}
