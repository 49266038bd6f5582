/** The pure library of the trade: no clock, no database, no sentence in any language. */
export * from "./vocabulary.ts";
export * from "./facts.ts";
export * from "./civil-date.ts";
export * from "./instant-at.ts";
export * from "./clock-time.ts";
export * from "./appointment-row.ts";
export * from "./planned-seconds.ts";
export * from "./storage-limits.ts";
export * from "./technique-step.ts";
export * from "./effective-end.ts";
export * from "./container-state.ts";
export * from "./container-code.ts";
export * from "./own-code.ts";
export * from "./assign-steps.ts";
export * from "./teeth.ts";
export * from "./surfaces.ts";
export * from "./surface-needs.ts";
export * from "./light-output.ts";
export * from "./light-state.ts";
export { planCure, type PlannedCure } from "./light-plan.ts";
export * from "./technique-faults.ts";
export * from "./trace.ts";
export * from "./canonical-json.ts";
export { suggestContainers, type Suggestion } from "./suggest.ts";
export * from "./check-settings.ts";
export { allChecks } from "./checks/all-checks.ts";
export type { Check } from "./checks/check.ts";
export { checkTray, type TrayCheck } from "./checks/check-tray.ts";
export * from "./label-drawing/drawing.ts";
export * from "./label-drawing/label-sheet.ts";
export type { LabelTexts, WordAndValue } from "./label-drawing/label-texts.ts";
export {
  labelSizesUm,
  layOutLabel,
  moduleWidths,
  type LabelLayout,
  type LabelSize,
} from "./label-drawing/lay-out-label.ts";
