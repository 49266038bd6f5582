export { gtinCheckDigit, isValidGtin, toGtin14 } from "./check-digit.ts";
export { encodeElementString } from "./encode.ts";
export { hibcCheckCharacter } from "./hibc-check.ts";
export { identifierOf, type DeviceIdentifier } from "./identifier.ts";
export { lotLookAlikeKey, normaliseLot } from "./lot.ts";
export {
  packFieldNames,
  readPack,
  type PackFieldName,
  type PackItem,
  type PackLevel,
  type PackLine,
  type PackOptions,
  type PackReading,
  type PackStanding,
} from "./pack.ts";
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
export { scannerFaultOf, scannerFaults, type ScannerFault } from "./scanner-blame.ts";
export {
  diagnoseScanner,
  recogniseSetUpSymbol,
  scannerFindingKinds,
  type ScannerDiagnosis,
  type ScannerFinding,
  type ScannerFindingKind,
  type ScannerFix,
  type ScannerObservation,
} from "./scanner-diagnosis.ts";
export {
  applyScannerProfile,
  scannerBounds,
  usualScannerProfile,
  type ScannerBurst,
  type ScannerProfile,
} from "./scanner-profile.ts";
export {
  scannerSetUpSymbols,
  type ScannerSetUpCarrier,
  type ScannerSetUpKey,
  type ScannerSetUpSymbol,
} from "./scanner-set-up.ts";
