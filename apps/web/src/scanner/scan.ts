import { readContainerCode } from "#domain";
import { readLabel, type LabelRead, type LabelRefused } from "#labels";

/** What this device itself understands of a scan, before the server is asked. */
export type ScanReading =
  | { kind: "container"; code: string }
  | { kind: "label"; label: LabelRead }
  | { kind: "unreadable"; refused: LabelRefused };

export interface Scan {
  /** What the scanner sent, byte for byte; two where a label has two symbols. */
  barcodes: string[];
  reading: ScanReading;
  /** Typed or pasted, not scanned. */
  byHand: boolean;
}

/** Reads one scan: the practice's own container code, or a label of a standard. */
export function readScanned(barcodes: readonly string[], today: string): ScanReading {
  const [first = ""] = barcodes;
  if (barcodes.length === 1) {
    // Scanners may put a symbology identifier (ISO/IEC 15424) in front.
    const container = readContainerCode(first.replace(/^\][A-Za-z]\w/, ""));
    if (container.ok) return { kind: "container", code: container.code };
  }
  const label = readLabel(barcodes.length === 1 ? first : [...barcodes], { today });
  return label.ok ? { kind: "label", label } : { kind: "unreadable", refused: label };
}

/** Whether a label has told only half: its product or its lot is on another symbol. */
export function wantsOtherSymbol({ fields, warnings }: LabelRead): boolean {
  if (fields.structure === "primary" || fields.structure === "secondary") return true;
  return warnings.some((warning) => warning.kind === "missing_companion_ai");
}
