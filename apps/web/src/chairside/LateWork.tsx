import { useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { CureLine } from "./CureLine.tsx";
import type { LateTime } from "./late-time.ts";
import type { StepWorkProps } from "./StepWork.tsx";
import { listParts } from "./timer.ts";
import { useRecordEvent } from "./useChairWork.ts";
import { useCure } from "./useCure.ts";

/** A step that was worked before it is told: typed with the time at which it happened. */
export function LateWork(props: StepWorkProps & { late: LateTime }): ReactNode {
  const { record, step, recordIds, locationId, late, onLeave, children } = props;
  const { chairside: t } = useTexts();
  const write = useRecordEvent(recordIds);
  const cure = useCure({ record, step, locationId });
  const planned = listParts(step).find(({ kind }) => kind === "cure");
  const [seconds, setSeconds] = useState("");
  const [cured, setCured] = useState("");
  const { key: stepKey, name } = step;
  function finish(): void {
    const ran = seconds === "" ? {} : { seconds: Number(seconds) };
    void write({ kind: "step-started", stepKey }, name);
    if (cured !== "") {
      void write({ kind: "cure", stepKey, seconds: Number(cured), ...cure.told }, name);
    }
    void write({ kind: "step-done", stepKey, ...ran }, name);
    onLeave();
  }
  function leaveOut(): void {
    void write({ kind: "step-left-out", stepKey }, name);
    onLeave();
  }
  return (
    <>
      <div className="form late-work">
        <p>{t.lateStep}</p>
        <TextField
          label={t.lateTime}
          type="time"
          value={late.time}
          error={late.at === null ? t.lateNoTime : undefined}
          required
          onChange={({ target }) => late.setTime(target.value)}
        />
        <SecondsField label={t.lateSeconds} value={seconds} onChange={setSeconds} />
        {planned === undefined ? null : (
          <>
            <SecondsField label={t.lateCured} value={cured} onChange={setCured} />
            <CureLine cure={cure} seconds={Number(cured || planned.seconds)} isRunning />
          </>
        )}
      </div>
      <div className="step-words">
        {children}
        <div className="actions step-actions">
          <Button kind="main" className="huge" disabled={late.at === null} onClick={finish}>
            {t.lateDone}
          </Button>
          {step.required ? null : (
            <Button className="big" disabled={late.at === null} onClick={leaveOut}>
              {t.skip}
            </Button>
          )}
        </div>
      </div>
    </>
  );
}

interface SecondsFieldProps {
  label: string;
  value: string;
  onChange: (value: string) => void;
}

const SecondsField = ({ label, value, onChange }: SecondsFieldProps): ReactNode => (
  <TextField
    label={label}
    type="number"
    min={1}
    max={3600}
    value={value}
    onChange={({ target }) => onChange(target.value)}
  />
);
