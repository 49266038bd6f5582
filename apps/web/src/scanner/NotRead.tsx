import type { ReactNode } from "react";
import { scannerFaultOf } from "#labels";
import { sayLabelProblem } from "#texts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { ScanEntry } from "./ScanEntry.tsx";
import { ToScannerPage } from "./ScannerNote.tsx";
import type { Scan } from "./scan.ts";
import { showControls } from "./show-controls.ts";

/** A scan that could not be read: why, where, and what to do. */
export function NotRead({ scan, onClose }: { scan: Scan; onClose: () => void }): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  if (scan.reading.kind !== "unreadable") return null;
  const { error } = scan.reading.refused;
  const { at, length, part = 0 } = error;
  const raw = scan.barcodes[part] ?? "";
  // A camera has no keyboard and keeps separators.
  const fault = scan.source === "scanner" ? scannerFaultOf(error) : undefined;
  return (
    <Dialog
      title={t.scan.unreadable}
      onClose={onClose}
      actions={fault === undefined ? null : <ToScannerPage />}
    >
      <p>{sayLabelProblem(language, error.kind, fault)}</p>
      <p className="hint">{t.scan.marked}</p>
      <p className="raw code">
        {showControls(raw.slice(0, at))}
        <mark>{showControls(raw.slice(at, at + length)) || "▯"}</mark>
        {showControls(raw.slice(at + length))}
      </p>
      <ScanEntry withCamera />
    </Dialog>
  );
}
