import { useState, type ReactNode } from "react";
import { useOutboxEntries } from "../outbox/OutboxProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { OverrideDialog } from "../tray/OverrideDialog.tsx";
import type { FindingView } from "../ui/FindingNote.tsx";
import { Page } from "../ui/Page.tsx";
import { FindingList } from "./FindingList.tsx";
import { SignScreen } from "./SignScreen.tsx";
import { StepLine } from "./StepLine.tsx";
import { StepScreen } from "./StepScreen.tsx";
import { listAlongside, listNewStops, stepToWork, type RecordView } from "./steps.ts";
import { TeethWith } from "./TeethWith.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

interface RecordWorkProps {
  record: RecordView;
  /** The other teeth of the visit that are not signed. */
  others: readonly RecordView[];
  locationId: string;
  tabs: ReactNode;
  isAwake: boolean;
}

/** The work on a draft: its steps one at a time, then the signature. */
export function RecordWork(props: RecordWorkProps): ReactNode {
  const { record, others, locationId, tabs, isAwake } = props;
  const t = useTexts();
  const unsettled = useOutboxEntries().filter((entry) => entry.belongsTo === record.id).length;
  const [chosen, choose] = useState<string | null>(null);
  const [apart, setApart] = useState<ReadonlySet<string>>(new Set());
  const [passing, pass] = useState<FindingView | null>(null);
  const { steps } = record;
  const step = stepToWork(steps, chosen);
  const stops = listNewStops(record);
  const alongside = step === null ? [] : listAlongside(others, step.key);
  const recordIds = [record, ...alongside.filter(({ id }) => !apart.has(id))].map(({ id }) => id);
  const setWith = (id: string, isWith: boolean) =>
    setApart(new Set(isWith ? [...apart].filter((one) => one !== id) : [...apart, id]));
  return (
    <Page
      full
      className="chair"
      title={t.chairside.tooth(showTooth(record.tooth))}
      lead={`${record.technique.name} · ${t.common.chart(record.chartNumber)}`}
    >
      <div className="chair-body">
        <div className="visit-line">
          {tabs}
          <StepLine steps={steps} current={step?.key ?? null} onChoose={choose} />
        </div>
        {stops.length === 0 ? null : (
          <section className="chair-alarm" role="alert">
            <h2>{t.chairside.changedVerdict}</h2>
            <FindingList findings={stops} onPass={pass} />
          </section>
        )}
        {step === null ? (
          <SignScreen {...{ record, unsettled }} onStep={choose} />
        ) : (
          <StepScreen
            key={step.key}
            {...{ record, step, recordIds, locationId, isAwake }}
            onLeave={() => choose(null)}
          >
            <TeethWith others={alongside} apart={apart} onChange={setWith} />
          </StepScreen>
        )}
      </div>
      {passing === null ? null : (
        <OverrideDialog trayId={record.trayId} finding={passing} onClose={() => pass(null)} />
      )}
    </Page>
  );
}
