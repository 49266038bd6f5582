import { useState, type ReactNode } from "react";
import { useOutboxEntries } from "../outbox/OutboxProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Page } from "../ui/Page.tsx";
import { Loading, ProblemNote } from "../ui/States.tsx";
import type { Tray } from "../tray/columns.ts";
import { RecordWork } from "./RecordWork.tsx";
import { SignedRecord } from "./SignedRecord.tsx";
import { withWaiting } from "./steps.ts";
import { TeethTabs } from "./TeethTabs.tsx";
import { useVisitRecords } from "./useVisitRecords.ts";

/** The work on a visit: one tooth before the eyes, the others a tap away. */
export function VisitWork({ tray, isAwake }: { tray: Tray; isAwake: boolean }): ReactNode {
  const t = useTexts();
  const kept = useOutboxEntries();
  const { records: confirmed, error, retry } = useVisitRecords(tray.records.map(({ id }) => id));
  const [chosen, choose] = useState<string | null>(null);
  if (confirmed === null) {
    return (
      <Page title={t.chairside.checking}>
        {error === null ? <Loading /> : <ProblemNote error={error} onRetry={retry} />}
      </Page>
    );
  }
  const records = confirmed.map((record) =>
    withWaiting(
      record,
      kept.filter(({ belongsTo }) => belongsTo === record.id),
    ),
  );
  const unsigned = records.filter(({ state }) => state === "draft");
  const record = records.find(({ id }) => id === chosen) ?? unsigned[0] ?? records.at(-1);
  if (record === undefined) return null;
  const others = unsigned.filter((one) => one !== record);
  const tabs =
    records.length === 1 ? null : (
      <TeethTabs {...{ records, current: record.id, teeth: tray.teeth }} onChoose={choose} />
    );
  return record.state === "draft" ? (
    <RecordWork
      key={record.id}
      {...{ record, others, tabs, isAwake }}
      locationId={tray.location.id}
    />
  ) : (
    <SignedRecord record={record} tabs={tabs} />
  );
}
