import { useEffect, useRef, type ReactNode } from "react";
import { ApiProblem } from "../api/problem.ts";
import { useTexts } from "../texts/Texts.tsx";
import { ProblemNote } from "../ui/States.tsx";
import type { Outcome } from "./usePrinting.ts";

interface PrintOutcomeProps {
  outcome: Outcome;
  /** The first free label of the sheet from now on; `null` where no sheet was printed. */
  nextFree: number | null;
}

/** What became of it, in so many words, and what is still to be done by hand. */
export function PrintOutcome({ outcome, nextFree }: PrintOutcomeProps): ReactNode {
  const { print: t } = useTexts().labels;
  return (
    <div role="status" className="print-outcome">
      {outcome.kind === "sent" ? (
        <>
          <p className="print-said">{t.sent(outcome.labels, outcome.printer)}</p>
          <p>{t.sentHint}</p>
        </>
      ) : null}
      {outcome.kind === "saved" ? <p className="print-said">{t.saved}</p> : null}
      {outcome.kind === "pdf" ? (
        <>
          <p className="print-said">{outcome.isOpen ? t.pdfOpen : t.pdfBlocked}</p>
          <p>{t.actualSize}</p>
          {nextFree === null ? null : <p>{t.nextFree(nextFree)}</p>}
          <a className="button plain" href={outcome.address} target="_blank" rel="noreferrer">
            {t.openIt}
          </a>
        </>
      ) : null}
    </div>
  );
}

/** Why nothing, or not all, was printed, and what to do at the printer. */
export function PrintProblem({ error }: { error: unknown }): ReactNode {
  const { print: t } = useTexts().labels;
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (error !== null) place.current?.scrollIntoView({ block: "nearest" });
  }, [error]);
  if (error === null) return null;
  const code = error instanceof ApiProblem ? error.code : null;
  const steps =
    code === "printer-unreachable"
      ? t.unreachableSteps
      : code === "print-outcome-unknown"
        ? t.unknownSteps
        : [];
  return (
    <div ref={place} className="print-problem">
      <ProblemNote error={error} />
      {steps.length === 0 ? null : (
        <ol className="print-steps">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
    </div>
  );
}
