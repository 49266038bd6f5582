import { useState, type ReactNode } from "react";
import { useOutboxEntries, useWaitingFor } from "../outbox/OutboxProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { OverrideDialog } from "../tray/OverrideDialog.tsx";
import type { FindingView } from "../ui/FindingNote.tsx";
import { Page } from "../ui/Page.tsx";
import { FindingList } from "./FindingList.tsx";
import { SignedRecord } from "./SignedRecord.tsx";
import { SignScreen } from "./SignScreen.tsx";
import { StepLine } from "./StepLine.tsx";
import { StepScreen } from "./StepScreen.tsx";
import { listNewStops, stepToWork, withWaiting, type RecordView } from "./steps.ts";

interface RecordWorkProps {
  record: RecordView;
  isAwake: boolean;
}

/** The work on a record: its steps one at a time, then the signature, then what was signed. */
export function RecordWork({ record, isAwake }: RecordWorkProps): ReactNode {
  const t = useTexts();
  const waiting = useWaitingFor(record.id);
  const unsettled = useOutboxEntries().filter((entry) => entry.belongsTo === record.id).length;
  const [chosen, choose] = useState<string | null>(null);
  const [leftOut, setLeftOut] = useState<ReadonlySet<string>>(new Set());
  const [passing, pass] = useState<FindingView | null>(null);
  if (record.state !== "draft") return <SignedRecord record={record} />;
  const steps = withWaiting(record.steps, waiting);
  const step = stepToWork(steps, chosen, leftOut);
  const stops = listNewStops(record);
  const leaveStep = (isLeftOut: boolean) => {
    if (isLeftOut && step !== null) setLeftOut(new Set([...leftOut, step.key]));
    choose(null);
  };
  return (
    <Page
      full
      className="chair"
      title={t.chairside.tooth(record.tooth)}
      lead={`${record.technique.name} · ${t.common.chart(record.chartNumber)}`}
      actions={<StepLine steps={steps} current={step?.key ?? null} onChoose={choose} />}
    >
      <div className="chair-body">
        {stops.length === 0 ? null : (
          <section className="chair-alarm" role="alert">
            <h2>{t.chairside.changedVerdict}</h2>
            <FindingList findings={stops} onPass={pass} />
          </section>
        )}
        {step === null ? (
          <SignScreen {...{ record, steps, unsettled }} onStep={choose} />
        ) : (
          <StepScreen key={step.key} {...{ record, steps, step, isAwake }} onLeave={leaveStep} />
        )}
      </div>
      {passing === null ? null : (
        <OverrideDialog trayId={record.trayId} finding={passing} onClose={() => pass(null)} />
      )}
    </Page>
  );
}
