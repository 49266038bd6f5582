import type { ReactNode } from "react";
import { Link } from "wouter";
import { scannerFaultOf } from "#labels";
import { sayScannerFault } from "#texts";
import { paths } from "../paths.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useDeviceProfile } from "./device-profile.ts";

interface ScannerNoteProps {
  /** Warnings of a label that was read, or the error of one that was not. */
  found: readonly { kind: string; detail?: string | undefined }[];
}

/** What the scanner did wrong, with the way to its set-up; nothing where it did no wrong. */
export function ScannerNote({ found }: ScannerNoteProps): ReactNode {
  const { language } = useLanguage();
  const { profile } = useDeviceProfile();
  const faults = new Set(found.flatMap((each) => scannerFaultOf(each) ?? []));
  // What the set-up has found is known.
  if (profile.gsTokens.length > 0) faults.delete("separator-substituted");
  if (faults.size === 0) return null;
  return (
    <div className="scanner-note">
      {[...faults].map((fault) => (
        <p key={fault}>{sayScannerFault(language, fault)}</p>
      ))}
      <ToScannerPage />
    </div>
  );
}

/** The way to the page where this device's scanner is set up. */
export function ToScannerPage(): ReactNode {
  const t = useTexts();
  return (
    <Link to={paths.scanner()} className="button plain">
      {t.scan.scannerPage}
    </Link>
  );
}
