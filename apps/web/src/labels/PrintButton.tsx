import { Suspense, useEffect, useState, type ReactNode } from "react";
import { pageOf } from "../page-code.tsx";
import { Button, type ButtonKind } from "../ui/Button.tsx";
import type { LabelsToPrint } from "./usePrintWork.ts";

const PrintDialog = pageOf(() => import("./PrintDialog.tsx"));

interface PrintOverlayProps {
  labels: LabelsToPrint | null;
  onClose: () => void;
}

/** The print dialog over a page, once there is something to print. */
export function PrintOverlay({ labels, onClose }: PrintOverlayProps): ReactNode {
  useEffect(() => {
    // What does not come now is asked for again when it is wanted.
    PrintDialog.fetchCode().catch(() => undefined);
  }, []);
  if (labels === null) return null;
  return (
    <Suspense fallback={null}>
      <PrintDialog {...{ labels, onClose }} />
    </Suspense>
  );
}

interface PrintButtonProps extends LabelsToPrint {
  kind?: ButtonKind;
  children: ReactNode;
}

/** A button that opens the print dialog for what it names. */
export function PrintButton({ kind = "plain", children, ...labels }: PrintButtonProps): ReactNode {
  const [isOpen, open] = useState(false);
  return (
    <>
      <Button kind={kind} onClick={() => open(true)}>
        {children}
      </Button>
      <PrintOverlay labels={isOpen ? labels : null} onClose={() => open(false)} />
    </>
  );
}
