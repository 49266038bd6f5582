import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { ToScannerPage } from "./ScannerNote.tsx";
import type { Scan } from "./scan.ts";
import { LabelFacts } from "./WhatIsThis.tsx";

interface DoubtedScanProps {
  scan: Scan;
  onSettle: (isRight: boolean) => void;
}

/** A scan in which two fields may have run into one: a person compares it with the label. */
export function DoubtedScan({ scan, onSettle }: DoubtedScanProps): ReactNode {
  const { doubt: t } = useTexts().scanner;
  return (
    <Dialog
      title={t.title}
      onClose={() => onSettle(false)}
      closeLabel={t.no}
      actions={
        <>
          <Button kind="main" onClick={() => onSettle(true)}>
            {t.yes}
          </Button>
          <ToScannerPage />
        </>
      }
    >
      <p>{t.text}</p>
      <LabelFacts scan={scan} />
    </Dialog>
  );
}
