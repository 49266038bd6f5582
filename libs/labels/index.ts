export { gtinCheckDigit, isValidGtin, toGtin14 } from "./check-digit.ts";
export { encodeElementString } from "./encode.ts";
export { hibcCheckCharacter } from "./hibc-check.ts";
export { identifierOf, type DeviceIdentifier } from "./identifier.ts";
export { lotLookAlikeKey, normaliseLot } from "./lot.ts";
export { readLabel } from "./read-label.ts";
export {
  labelErrorKinds,
  labelWarningKinds,
  type LabelDate,
  type LabelElement,
  type LabelError,
  type LabelErrorDetail,
  type LabelErrorKind,
  type LabelFields,
  type LabelMeasure,
  type LabelRead,
  type LabelRefused,
  type LabelResult,
  type LabelScheme,
  type LabelWarning,
  type LabelWarningKind,
  type ReadOptions,
} from "./result.ts";
