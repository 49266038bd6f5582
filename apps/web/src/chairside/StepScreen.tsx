import { useState, type ReactNode } from "react";
import { showContainerCode } from "#domain";
import type { Scan } from "../scanner/scan.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { DeviationDialog } from "./DeviationDialog.tsx";
import { LateWork } from "./LateWork.tsx";
import { ToldTime, useLateTime } from "./late-time.ts";
import { NotScannedDialog } from "./NotScannedDialog.tsx";
import type { RecordView } from "./steps.ts";
import { StepWork } from "./StepWork.tsx";
import { SwapDialog } from "./SwapDialog.tsx";
import { ThicknessDialog } from "./ThicknessDialog.tsx";
import type { RecordStep } from "./timer.ts";

export interface StepScreenProps {
  record: RecordView;
  step: RecordStep;
  /** The record's own id first, then those of the teeth that go through the step with it. */
  recordIds: readonly string[];
  locationId: string;
  isAwake: boolean;
  onLeave: () => void;
  children: ReactNode;
}

type Asked = "swap" | "deviation" | "not-scanned" | "thickness";

/** One step: its name, its container, its ring; the next step small beneath. */
export function StepScreen(props: StepScreenProps): ReactNode {
  const { record, step, recordIds, locationId, isAwake, onLeave, children } = props;
  const t = useTexts();
  const [asks, ask] = useState<Asked | null>(null);
  const [scanned, setScanned] = useState<Scan | null>(null);
  const askSwap = (scan: Scan | null) => {
    setScanned(scan);
    ask("swap");
  };
  const late = useLateTime(record);
  const isLate = record.toldAt !== null;
  const noTime = isLate && late.at === null;
  const takesScans = step.usesMaterial && !noTime;
  useScanTarget(takesScans ? askSwap : null, t.chairside.swapTitle(step.name));
  const index = record.steps.findIndex((one) => one.key === step.key);
  const following = record.steps.slice(index + 1).find((one) => !one.done && !one.leftOut);
  const words = (
    <>
      <p className="step-of">{t.chairside.stepOf(index + 1, record.steps.length)}</p>
      <h2 className="step-title">{step.name}</h2>
      <StepContainers step={step} />
      {children}
    </>
  );
  const about = { record, step, recordIds, onClose: () => ask(null) };
  return (
    <ToldTime value={isLate ? late.at : null}>
      <section className="step-screen" aria-label={step.name}>
        {isLate ? (
          <LateWork {...{ record, step, recordIds, locationId, late, onLeave }}>{words}</LateWork>
        ) : (
          <StepWork {...{ record, step, recordIds, locationId, onLeave }}>{words}</StepWork>
        )}
      </section>
      <div className="chair-bar">
        <p className="step-next">
          {t.chairside.next}: <strong>{following?.name ?? t.chairside.lastStep}</strong>
          <span className="hint">{isAwake ? t.chairside.awake : t.chairside.notAwake}</span>
        </p>
        <div className="actions">
          {step.usesMaterial ? (
            <Button className="big" disabled={noTime} onClick={() => askSwap(null)}>
              {t.chairside.swap}
            </Button>
          ) : null}
          <Button className="big" disabled={noTime} onClick={() => ask("deviation")}>
            {t.chairside.deviation}
          </Button>
          {step.thickness === null ? null : (
            <Button className="big" disabled={noTime} onClick={() => ask("thickness")}>
              {t.chairside.thickness}
            </Button>
          )}
          {step.usesMaterial ? (
            <Button className="big" disabled={noTime} onClick={() => ask("not-scanned")}>
              {t.chairside.notScanned}
            </Button>
          ) : null}
        </div>
      </div>
      {asks === "swap" ? <SwapDialog {...about} scanned={scanned} /> : null}
      {asks === "deviation" ? <DeviationDialog {...about} /> : null}
      {asks === "thickness" ? <ThicknessDialog {...about} /> : null}
      {asks === "not-scanned" ? <NotScannedDialog {...about} /> : null}
    </ToldTime>
  );
}

function StepContainers({ step }: { step: RecordStep }): ReactNode {
  const t = useTexts();
  const { shortDate } = useFormats();
  if (!step.usesMaterial) return <p className="step-container">{t.chairside.noMaterial}</p>;
  if (step.containers.length === 0) {
    return <p className="step-container none">{t.chairside.noContainer}</p>;
  }
  return step.containers.map(({ id, code, productName, lot, endsOn }) => (
    <p key={id} className="step-container">
      {productName}
      <span>
        <span className="code">{showContainerCode(code)}</span> · {t.chairside.lot(lot)}
        {endsOn === null ? null : ` · ${t.common.ends(shortDate(endsOn))}`}
      </span>
    </p>
  ));
}
