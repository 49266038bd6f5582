import type { ReactNode } from "react";
import type { ScannerDiagnosis, ScannerFinding, ScannerFix } from "#labels";
import { showEvery } from "../scanner/show-controls.ts";
import { useTexts } from "../texts/Texts.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";

const fixes: readonly ScannerFix[] = ["change-the-scanner", "set-right-here", "nothing-to-do"];

/** What came of the set-up, in plain words: what to change first, then what was set right. */
export function ScannerResult({ diagnosis }: { diagnosis: ScannerDiagnosis }): ReactNode {
  const { run } = useTexts().scanner;
  const isGood = diagnosis.profile !== null;
  return (
    <div role="status" className="scanner-result">
      <p className={isGood ? "scanner-word clear" : "scanner-word stop"}>
        <VerdictShape verdict={isGood ? "clear" : "stop"} />
        {isGood ? run.good : run.bad}
      </p>
      <p>{isGood ? run.goodText : run.badText}</p>
      <ul className="scanner-findings">
        {fixes.flatMap((fix) =>
          diagnosis.findings
            .filter((finding) => finding.fix === fix)
            .map((finding) => (
              <FindingLine key={finding.kind + (finding.symbol ?? "")} finding={finding} />
            )),
        )}
      </ul>
    </div>
  );
}

function FindingLine({ finding }: { finding: ScannerFinding }): ReactNode {
  const { run, findings } = useTexts().scanner;
  const { kind, fix, text = "" } = finding;
  const mark = {
    "change-the-scanner": run.change,
    "set-right-here": run.setRight,
    "nothing-to-do": run.fine,
  }[fix];
  return (
    <li className={`scanner-finding ${fix}`}>
      <p className="scanner-fix">{mark}</p>
      <h3>{findings[kind].title}</h3>
      <p>{findings[kind].text(showEvery(text))}</p>
    </li>
  );
}
