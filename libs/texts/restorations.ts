import type { RestorationKind } from "#domain";

/** Restorations made outside the mouth, by the terms of the trade. */
export const restorationsEn: Record<RestorationKind, string> = {
  inlay: "inlay",
  onlay: "onlay",
  overlay: "overlay",
  "partial-crown": "partial crown",
  "full-crown": "full crown",
  veneer: "veneer",
  endocrown: "endocrown",
};

/** The same in German. */
export const restorationsDe: Record<RestorationKind, string> = {
  inlay: "Inlay",
  onlay: "Onlay",
  overlay: "Overlay",
  "partial-crown": "Teilkrone",
  "full-crown": "Vollkrone",
  veneer: "Veneer",
  endocrown: "Endokrone",
};
