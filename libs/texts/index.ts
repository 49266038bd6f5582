/** Texts in every language: sentences for findings, problems and labels, and the trade's words. */
export {
  addMessages,
  formatDate,
  formatNumber,
  getMessages,
  languages,
  makeTimeFormats,
  plural,
  type Language,
} from "./format.ts";
export type { Messages } from "./en.ts";
export { fill, type Values } from "./fill.ts";
export type { LabelProblemKind } from "./label-problems-en.ts";
export {
  sayBecause,
  sayFinding,
  sayLabelProblem,
  sayProblem,
  sayScannerFault,
  sayTooth,
  sayVerdict,
  type SaidFinding,
} from "./say.ts";
export { sayEvent, type SaidEvent } from "./say-event.ts";
export { getPaper } from "./paper.ts";
