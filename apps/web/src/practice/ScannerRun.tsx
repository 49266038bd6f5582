import { useState, type ReactNode } from "react";
import {
  diagnoseScanner,
  recogniseSetUpSymbol,
  scannerSetUpSymbols,
  type ScannerDiagnosis,
  type ScannerSetUpKey,
} from "#labels";
import { addressOf } from "../api/client.ts";
import { useBursts } from "../scanner/ScanProvider.tsx";
import { showControls } from "../scanner/show-controls.ts";
import { playSound } from "../scanner/sounds.ts";
import type { Burst } from "../scanner/wedge.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Choice } from "../ui/Field.tsx";
import { ScannerResult } from "./ScannerResult.tsx";
import type { KeepScanner } from "./useKeepScanner.ts";

interface ScannerRunProps {
  keep: KeepScanner["keep"];
  onClose: () => void;
}

interface Progress {
  gs1: Burst | null;
  /** What came instead of the symbol shown. */
  other: string | null;
  diagnosis: ScannerDiagnosis | null;
}
const beginning: Progress = { gs1: null, other: null, diagnosis: null };

/** The set-up: one symbol is scanned, then the other, and what the scanner does to them is said. */
export function ScannerRun({ keep, onClose }: ScannerRunProps): ReactNode {
  const t = useTexts();
  const { run } = t.scanner;
  const [{ gs1, other, diagnosis }, setProgress] = useState(beginning);
  const [hibcKey, setHibcKey] = useState<ScannerSetUpKey>("hibc");
  const step = diagnosis !== null ? 2 : gs1 === null ? 0 : 1;
  function take(burst: Burst): void {
    const isShown = recogniseSetUpSymbol(burst) === (gs1 === null ? "gs1" : "hibc");
    playSound(isShown ? "taken" : "look");
    if (!isShown) return setProgress({ ...beginning, gs1, other: burst.typed });
    if (gs1 === null) return setProgress({ ...beginning, gs1: burst });
    const found = diagnoseScanner({ gs1, hibc: burst });
    if (found.profile !== null) {
      keep({ profile: found.profile, setUpAt: new Date().toISOString() });
    }
    return setProgress({ gs1, other: null, diagnosis: found });
  }
  useBursts(diagnosis === null ? take : null);
  return (
    <section className="panel scanner-run">
      <h2>{run.title}</h2>
      <Steps step={step} />
      {diagnosis === null ? (
        <>
          <SymbolToScan symbolKey={step === 0 ? "gs1" : hibcKey} step={step} other={other} />
          {step === 1 ? <KindChoice value={hibcKey} onChoose={setHibcKey} /> : null}
          <p className="hint">{run.none}</p>
          <p className="hint">{run.nothing}</p>
        </>
      ) : (
        <ScannerResult diagnosis={diagnosis} />
      )}
      <div className="actions">
        {diagnosis === null ? (
          <a
            className="button plain"
            href={addressOf("getScannerSheet", {})}
            target="_blank"
            rel="noreferrer"
          >
            {run.sheet}
          </a>
        ) : null}
        {step === 0 ? null : <Button onClick={() => setProgress(beginning)}>{run.again}</Button>}
        <Button kind={diagnosis === null ? "quiet" : "main"} onClick={onClose}>
          {diagnosis === null ? t.common.cancel : run.done}
        </Button>
      </div>
    </section>
  );
}

function Steps({ step }: { step: number }): ReactNode {
  const { run } = useTexts().scanner;
  return (
    <ol className="scanner-steps">
      {run.steps.map((name, index) => (
        <li key={name} aria-current={index === step ? "step" : undefined}>
          {name}
        </li>
      ))}
    </ol>
  );
}

interface SymbolToScanProps {
  symbolKey: ScannerSetUpKey;
  step: number;
  other: string | null;
}

function SymbolToScan({ symbolKey, step, other }: SymbolToScanProps): ReactNode {
  const { run } = useTexts().scanner;
  const [failed, setFailed] = useState<string | null>(null);
  const name = scannerSetUpSymbols.find(({ key }) => key === symbolKey)?.name ?? symbolKey;
  return (
    <>
      <p className="scanner-ask">{step === 0 ? run.first : run.second}</p>
      <figure className="scanner-symbol">
        {failed === symbolKey ? (
          <p>{run.symbolFailed}</p>
        ) : (
          <img
            key={symbolKey}
            src={addressOf("getScannerSheet", { query: { symbol: symbolKey } })}
            alt={name}
            onError={() => setFailed(symbolKey)}
          />
        )}
        <figcaption>{name}</figcaption>
      </figure>
      <div role="status">
        {other === null ? (
          <p className="scanner-wait">{run.wait}</p>
        ) : (
          <>
            <p className="field-error">{run.other}</p>
            <p className="raw code">{showControls(other)}</p>
          </>
        )}
      </div>
    </>
  );
}

interface KindChoiceProps {
  value: ScannerSetUpKey;
  onChoose: (key: ScannerSetUpKey) => void;
}

function KindChoice({ value, onChoose }: KindChoiceProps): ReactNode {
  const { run } = useTexts().scanner;
  const keys = ["hibc", "hibc-linear", "hibc-code39"] as const;
  const options = keys.map((key) => ({ value: key as ScannerSetUpKey, label: run.kinds[key] }));
  return <Choice label={run.kind} options={options} value={value} onChoose={onChoose} />;
}
