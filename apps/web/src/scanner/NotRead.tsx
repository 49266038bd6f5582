import type { ReactNode } from "react";
import { sayLabelProblem } from "#texts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { ScanEntry } from "./ScanEntry.tsx";
import type { Scan } from "./scan.ts";

/** Control characters as the pictures Unicode has for them, so that a missing one can be seen. */
function showControls(text: string): string {
  return Array.from(text, (character) =>
    character < " " ? String.fromCharCode(0x2400 + character.charCodeAt(0)) : character,
  ).join("");
}

/** A scan that could not be read: why, where, and what to do. */
export function NotRead({ scan, onClose }: { scan: Scan; onClose: () => void }): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  if (scan.reading.kind !== "unreadable") return null;
  const { kind, at, length, part = 0 } = scan.reading.refused.error;
  const raw = scan.barcodes[part] ?? "";
  return (
    <Dialog title={t.scan.unreadable} onClose={onClose}>
      <p>{sayLabelProblem(language, kind)}</p>
      <p className="hint">{t.scan.marked}</p>
      <p className="raw code">
        {showControls(raw.slice(0, at))}
        <mark>{showControls(raw.slice(at, at + length)) || "▯"}</mark>
        {showControls(raw.slice(at + length))}
      </p>
      <ScanEntry />
    </Dialog>
  );
}
