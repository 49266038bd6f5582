import { useState, type ReactNode } from "react";
import { ApiProblem } from "../api/problem.ts";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { QueryView } from "../ui/States.tsx";
import { PrintFields } from "./PrintFields.tsx";
import { PrintOutcome, PrintProblem } from "./PrintOutcome.tsx";
import { usePrintWork, type LabelsToPrint } from "./usePrintWork.ts";
import "./labels.css";

interface PrintDialogProps {
  labels: LabelsToPrint;
  onClose: () => void;
}

/** Prints labels: on a label printer, on sheets, one a page, or as a file. */
export default function PrintDialog({ labels, onClose }: PrintDialogProps): ReactNode {
  const { print: t } = useTexts().labels;
  const printers = useRead("listPrinters", {}, { staleMs: 60_000 });
  const sheets = useRead("listSheets", {}, { staleMs: 60_000 });
  if (printers.data !== undefined && sheets.data !== undefined) {
    return <PrintForm {...{ labels, onClose }} {...printers.data} {...sheets.data} />;
  }
  return (
    <Dialog title={t.title(labels.subjects.length)} onClose={onClose} wide>
      <QueryView query={printers}>{() => null}</QueryView>
      {printers.data === undefined ? null : <QueryView query={sheets}>{() => null}</QueryView>}
    </Dialog>
  );
}

type PrintFormProps = PrintDialogProps & Parameters<typeof usePrintWork>[1];

function PrintForm({ labels, onClose, ...known }: PrintFormProps): ReactNode {
  const { print: t } = useTexts().labels;
  const work = usePrintWork(labels, known);
  const { printing, printer, way, count, total } = work;
  const [asksForRest, askForRest] = useState(false);
  const { outcome, busy, error } = printing;
  if (outcome !== null) {
    const again = () => {
      printing.reset();
      askForRest(true);
    };
    return (
      <Dialog
        key="outcome"
        title={t.title(count)}
        onClose={onClose}
        closeLabel={t.done}
        actions={<Button onClick={again}>{total === 1 ? t.againOne : t.againRest}</Button>}
      >
        <PrintOutcome
          outcome={outcome}
          nextFree={way === "sheet" ? work.sheetChoice.start : null}
        />
      </Dialog>
    );
  }
  const isUnsure = error instanceof ApiProblem && error.code === "print-outcome-unknown";
  const send = (
    <Button kind="main" busy={busy} onClick={work.print}>
      {printer === undefined ? t.openPdf(count) : t.send(count)}
    </Button>
  );
  return (
    <Dialog
      key="form"
      title={t.title(count)}
      onClose={onClose}
      wide
      actions={way === "file" ? null : send}
    >
      <PrintFields work={work} asksForRest={asksForRest || isUnsure} />
      <PrintProblem error={error} />
    </Dialog>
  );
}
