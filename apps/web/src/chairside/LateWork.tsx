import { useState, type ReactNode } from "react";
import { clockAt, instantOfClock } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import type { StepWorkProps } from "./StepWork.tsx";
import { useRecordEvent } from "./useChairWork.ts";

/** A step that was worked before it is told: typed with the time at which it happened. */
export function LateWork(props: Omit<StepWorkProps, "locationId">): ReactNode {
  const { record, step, recordIds, onLeave, children } = props;
  const { chairside: t } = useTexts();
  const { timeZone } = useFormats();
  const write = useRecordEvent(recordIds);
  const last = record.events
    .map(({ occurredAt }) => occurredAt)
    .toSorted()
    .at(-1);
  const before = last === undefined || last < record.startedAt ? record.startedAt : last;
  const { day } = clockAt(record.startedAt, timeZone);
  const [time, setTime] = useState(clockAt(before, timeZone).time);
  const [seconds, setSeconds] = useState("");
  const occurredAt = instantOfClock(day, time, timeZone);
  function finish(): void {
    if (occurredAt === null) return;
    const { key: stepKey, name } = step;
    const ran = seconds === "" ? {} : { seconds: Number(seconds) };
    // The minute of the start has its seconds: within it, nothing comes before.
    const at = occurredAt < record.startedAt ? record.startedAt : occurredAt;
    void write({ kind: "step-started", stepKey, occurredAt: at }, name);
    void write({ kind: "step-done", stepKey, occurredAt: at, ...ran }, name);
    onLeave();
  }
  function leaveOut(): void {
    void write({ kind: "step-left-out", stepKey: step.key }, step.name);
    onLeave();
  }
  return (
    <>
      <div className="form late-work">
        <p>{t.lateStep}</p>
        <TextField
          label={t.lateTime}
          type="time"
          value={time}
          required
          onChange={({ target }) => setTime(target.value)}
        />
        <TextField
          label={t.lateSeconds}
          type="number"
          min={0}
          max={7200}
          value={seconds}
          onChange={({ target }) => setSeconds(target.value)}
        />
      </div>
      <div className="step-words">
        {children}
        <div className="actions step-actions">
          <Button kind="main" className="huge" disabled={occurredAt === null} onClick={finish}>
            {t.lateDone}
          </Button>
          {step.required ? null : (
            <Button className="big" onClick={leaveOut}>
              {t.skip}
            </Button>
          )}
        </div>
      </div>
    </>
  );
}
