import { useEffect, useState, type ReactNode } from "react";
import { serverNowMs } from "../api/server-clock.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { CureLine } from "./CureLine.tsx";
import { DropClock } from "./DropClock.tsx";
import { Ring } from "./Ring.tsx";
import type { StepScreenProps } from "./StepScreen.tsx";
import {
  listParts,
  litSeconds,
  nextPart,
  readRuns,
  runningOf,
  shownPart,
  totalSeconds,
  type Part,
  type Run,
} from "./timer.ts";
import { useRecordEvent } from "./useChairWork.ts";
import { useCure } from "./useCure.ts";

export type StepWorkProps = Pick<
  StepScreenProps,
  "record" | "step" | "recordIds" | "locationId" | "onLeave" | "children"
>;

/** The clock of a step, its words, and the taps that move it on, for all teeth that go along. */
export function StepWork(props: StepWorkProps): ReactNode {
  const { record, step, recordIds, locationId, onLeave, children } = props;
  const t = useTexts();
  const write = useRecordEvent(recordIds);
  const cure = useCure({ record, step, locationId });
  const { key: stepKey, name } = step;
  const parts = listParts(step).map((part) => (part.kind === "cure" ? cure.plan(part) : part));
  const runs = readRuns(record.events, stepKey);
  const running = runningOf(runs);
  const part = shownPart(parts, runs);
  const isBegun = runs.length > 0 || step.startedAt !== null;
  function begin(next: Part | null): void {
    noteCure();
    if (next === null) void write({ kind: "step-started", stepKey }, name);
    else {
      const { kind, seconds } = next;
      void write({ kind: "part-started", stepKey, part: kind, seconds }, name);
    }
  }
  function noteCure(): void {
    if (running?.part !== "cure") return;
    const seconds = litSeconds(running, serverNowMs());
    if (seconds > 0) void write({ kind: "cure", stepKey, seconds, ...cure.told }, name);
  }
  function finish(): void {
    noteCure();
    const seconds = runs.length === 0 ? {} : { seconds: totalSeconds(runs, serverNowMs()) };
    void write({ kind: "step-done", stepKey, ...seconds }, name);
    onLeave();
  }
  function leaveOut(): void {
    void write({ kind: "step-left-out", stepKey }, name);
    onLeave();
  }
  function drop(): void {
    const [container] = step.containers;
    if (container === undefined) return;
    void write({ kind: "dispensed", stepKey, containerId: container.id }, name);
  }
  return (
    <>
      <div className="step-clock">
        {part === null ? (
          <p className="step-no-clock">{t.chairside.noTimer}</p>
        ) : (
          <Ring part={part} run={running} />
        )}
      </div>
      <div className="step-words">
        {children}
        {part === null || part.kind === "application" ? (
          <DropClock step={step} onDrop={drop} />
        ) : null}
        {part?.kind === "cure" ? (
          <CureLine cure={cure} seconds={part.seconds} isRunning={running !== null} />
        ) : null}
        <StepButtons
          {...{ running, step, part }}
          next={nextPart(parts, runs)}
          mustBegin={!isBegun && (parts.length > 0 || step.usesMaterial)}
          onBegin={begin}
          onDone={finish}
          onLeaveOut={leaveOut}
        />
      </div>
    </>
  );
}

/** Whether the part that runs has had its time: only then is going on the obvious thing to do. */
function useIsUp(run: Run | null): boolean {
  const [upAtMs, setUpAtMs] = useState<number | null>(null);
  const endsMs = run === null ? null : run.beganMs + run.seconds * 1000;
  useEffect(() => {
    if (endsMs === null) return undefined;
    const timer = window.setTimeout(() => setUpAtMs(endsMs), Math.max(0, endsMs - serverNowMs()));
    return () => window.clearTimeout(timer);
  }, [endsMs]);
  return endsMs !== null && upAtMs === endsMs;
}

interface StepButtonsProps {
  step: StepScreenProps["step"];
  /** What the ring shows. */
  part: Part | null;
  next: Part | null;
  running: Run | null;
  mustBegin: boolean;
  onBegin: (part: Part | null) => void;
  onDone: () => void;
  onLeaveOut: () => void;
}

/** The taps of a step; the one to make next is the large coloured one. */
function StepButtons(props: StepButtonsProps): ReactNode {
  const { step, part, next, running, mustBegin, onBegin, onDone, onLeaveOut } = props;
  const t = useTexts();
  const isUp = useIsUp(running);
  const goingOn = running === null || isUp ? "main" : "plain";
  return (
    <div className="actions step-actions">
      {next === null ? null : (
        <Button kind={goingOn} className="huge" onClick={() => onBegin(next)}>
          {t.chairside.beginPart(t.chairside.parts[next.kind])}
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
      {running === null || part === null ? null : (
        <Button className="big" onClick={() => onBegin(part)}>
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
