import { useEffect, useState, type ReactNode } from "react";
import { showContainerCode } from "#domain";
import type { Scan } from "../scanner/scan.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { DeviationDialog } from "./DeviationDialog.tsx";
import { NotScannedDialog } from "./NotScannedDialog.tsx";
import { Ring } from "./Ring.tsx";
import type { RecordView } from "./steps.ts";
import { SwapDialog } from "./SwapDialog.tsx";
import {
  beginPart,
  listParts,
  nextPart,
  runningOf,
  totalSeconds,
  type Part,
  type PartKind,
  type RecordStep,
  type Run,
} from "./timer.ts";
import { useRecordEvent, useStepTimer } from "./useChairWork.ts";

interface StepScreenProps {
  record: RecordView;
  steps: readonly RecordStep[];
  step: RecordStep;
  isAwake: boolean;
  onLeave: (isLeftOut: boolean) => void;
}

/** One step: its name, its container, its ring; the next step small beneath. */
export function StepScreen({ record, steps, step, isAwake, onLeave }: StepScreenProps): ReactNode {
  const t = useTexts();
  const [asks, ask] = useState<"swap" | "deviation" | "not-scanned" | null>(null);
  const [scanned, setScanned] = useState<Scan | null>(null);
  const askSwap = (scan: Scan | null) => {
    setScanned(scan);
    ask("swap");
  };
  useScanTarget(step.usesMaterial ? askSwap : null, t.chairside.swapTitle(step.name));
  const index = steps.findIndex((one) => one.key === step.key);
  const following = steps.slice(index + 1).find((one) => !one.done);
  const about = { record, step, onClose: () => ask(null) };
  return (
    <>
      <section className="step-screen" aria-label={step.name}>
        <StepWork {...{ record, step, onLeave }}>
          <p className="step-of">{t.chairside.stepOf(index + 1, steps.length)}</p>
          <h2 className="step-title">{step.name}</h2>
          <StepContainers step={step} />
        </StepWork>
      </section>
      <div className="chair-bar">
        <p className="step-next">
          {t.chairside.next}: <strong>{following?.name ?? t.chairside.lastStep}</strong>
          <span className="hint">{isAwake ? t.chairside.awake : t.chairside.notAwake}</span>
        </p>
        <div className="actions">
          {step.usesMaterial ? (
            <Button className="big" onClick={() => askSwap(null)}>
              {t.chairside.swap}
            </Button>
          ) : null}
          <Button className="big" onClick={() => ask("deviation")}>
            {t.chairside.deviation}
          </Button>
          {step.usesMaterial ? (
            <Button className="big" onClick={() => ask("not-scanned")}>
              {t.chairside.notScanned}
            </Button>
          ) : null}
        </div>
      </div>
      {asks === "swap" ? <SwapDialog {...about} scanned={scanned} /> : null}
      {asks === "deviation" ? <DeviationDialog {...about} /> : null}
      {asks === "not-scanned" ? <NotScannedDialog {...about} /> : null}
    </>
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

/** Whether the part that runs has had its time: only then is going on the obvious thing to do. */
function useIsUp(run: Run | null, seconds: number): boolean {
  const [upRun, setUpRun] = useState<Run | null>(null);
  useEffect(() => {
    if (run === null) return undefined;
    const leftMs = run.beganMs + seconds * 1000 - Date.now();
    const timer = window.setTimeout(() => setUpRun(run), Math.max(0, leftMs));
    return () => window.clearTimeout(timer);
  }, [run, seconds]);
  return run !== null && upRun === run;
}

interface StepWorkProps extends Pick<StepScreenProps, "record" | "step" | "onLeave"> {
  children: ReactNode;
}

function StepWork({ record, step, onLeave, children }: StepWorkProps): ReactNode {
  const t = useTexts();
  const write = useRecordEvent(record.id);
  const [kept, keep] = useStepTimer(record.id);
  const timer = kept?.stepKey === step.key ? kept : null;
  const parts = listParts(step);
  const next = nextPart(parts, timer);
  const running = runningOf(timer);
  const part = parts.find(({ kind }) => kind === (running?.part ?? next?.kind)) ?? parts.at(-1);
  const isBegun = timer !== null || step.startedAt !== null;
  async function begin(kind: PartKind | null): Promise<void> {
    if (kind !== null) keep(beginPart(timer, { stepKey: step.key, part: kind, nowMs: Date.now() }));
    if (isBegun) return;
    const taken = await write({ kind: "step-started", stepKey: step.key }, step.name);
    if (!taken) keep(null);
  }
  function finish(): void {
    const seconds = timer === null ? {} : { seconds: totalSeconds(timer, Date.now()) };
    keep(null);
    void write({ kind: "step-done", stepKey: step.key, ...seconds }, step.name);
    onLeave(false);
  }
  return (
    <>
      <div className="step-clock">
        {part === undefined ? (
          <p className="step-no-clock">{t.chairside.noTimer}</p>
        ) : (
          <Ring part={part} run={running} />
        )}
      </div>
      <div className="step-words">
        {children}
        <StepButtons
          {...{ next, running, step }}
          seconds={part?.seconds ?? 0}
          mustBegin={!isBegun && (parts.length > 0 || step.usesMaterial)}
          onBegin={(kind) => void begin(kind)}
          onDone={finish}
          onLeaveOut={() => onLeave(true)}
        />
      </div>
    </>
  );
}

interface StepButtonsProps {
  step: RecordStep;
  next: Part | null;
  running: Run | null;
  /** How long the part that runs is to last. */
  seconds: number;
  mustBegin: boolean;
  onBegin: (kind: PartKind | null) => void;
  onDone: () => void;
  onLeaveOut: () => void;
}

/** The taps of a step; the one to make next is the large coloured one. */
function StepButtons(props: StepButtonsProps): ReactNode {
  const { step, next, running, seconds, mustBegin, onBegin, onDone, onLeaveOut } = props;
  const t = useTexts();
  const isUp = useIsUp(running, seconds);
  const goingOn = running === null || isUp ? "main" : "plain";
  return (
    <div className="actions step-actions">
      {next === null ? null : (
        <Button kind={goingOn} className="huge" onClick={() => onBegin(next.kind)}>
          {t.chairside.beginPart(t.chairside[next.kind])}
        </Button>
      )}
      {next === null && mustBegin ? (
        <Button kind="main" className="huge" onClick={() => onBegin(null)}>
          {t.chairside.begin}
        </Button>
      ) : null}
      {mustBegin ? null : (
        <Button
          kind={next === null ? goingOn : "plain"}
          className={next === null ? "huge" : "big"}
          onClick={onDone}
        >
          {t.chairside.stepDone}
        </Button>
      )}
      {running === null ? null : (
        <Button className="big" onClick={() => onBegin(running.part)}>
          {t.chairside.again}
        </Button>
      )}
      {step.required ? null : (
        <Button className="big" onClick={onLeaveOut}>
          {t.chairside.skip}
        </Button>
      )}
    </div>
  );
}
