import type { RecordView } from "#contracts/records";
import { sayEvent, sayFinding } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { subjectOf } from "../ui/FindingNote.tsx";
import type { TimelineEvent } from "../ui/Timeline.tsx";
import { showContainerCode } from "#domain";

type Told = RecordView["events"][number];

/** Everything that was written to a record, in the order in which it happened. */
export function useRecordEvents(record: RecordView): readonly TimelineEvent[] {
  const { record: texts } = useTexts().records;
  const { language, dateTime, time, civilDate } = useFormats();
  // The day stands in the head of the record; it is repeated only where it is another one.
  const when = (at: string) =>
    civilDate(at) === civilDate(record.startedAt) ? time(at) : dateTime(at);
  const names = new Map(record.technique.steps.map(({ key, name }) => [key, name]));
  const stepName = (key: string | null) => (key === null ? "" : (names.get(key) ?? key));
  const events = record.events.map((event): TimelineEvent => {
    const { title, details } = sayEvent(language, event, stepName(event.stepKey));
    const more = [sayUsed(event, record, texts), sayLate(event, texts, dateTime)];
    return {
      key: String(event.sequence),
      at: event.occurredAt,
      when: when(event.occurredAt),
      title,
      detail: joined([event.person, ...details, ...more]),
      tone: event.kind === "deviation" || event.kind === "not-scanned" ? "look" : "plain",
    };
  });
  const started: TimelineEvent = {
    key: "started",
    at: record.startedAt,
    when: when(record.startedAt),
    title: texts.events.started(record.startedBy),
    tone: "good",
  };
  const passed = record.passed.flatMap((finding): TimelineEvent[] => {
    const { overridden: by } = finding;
    if (by === null) return [];
    const { title, sentence } = sayFinding(language, finding);
    return [
      {
        key: `passed ${finding.code} ${subjectOf(finding)}`,
        at: by.at,
        when: when(by.at),
        title: texts.events.stopPassed(title),
        detail: joined([by.by, by.reason, sentence]),
        tone: "look",
      },
    ];
  });
  const all = [started, ...events, ...passed].sort((a, b) =>
    a.at < b.at ? -1 : a.at > b.at ? 1 : 0,
  );
  if (record.signed === null) return all;
  const { by, at } = record.signed;
  return [
    ...all,
    { key: "signed", at, when: when(at), title: texts.events.signed(by), tone: "good" },
  ];
}

type RecordTexts = ReturnType<typeof useTexts>["records"]["record"];

const joined = (parts: readonly string[]): string =>
  parts.filter((part) => part !== "").join(" · ");

/** What stood at a step when it began is told with its beginning. */
function sayUsed(event: Told, { materials }: RecordView, texts: RecordTexts): string {
  const used = materials.filter(
    ({ stepKey, usedAt }) =>
      event.kind === "step-started" && stepKey === event.stepKey && usedAt >= event.occurredAt,
  );
  return joined(
    used.map(({ productName, lot, containerCode }) =>
      texts.used(
        joined([
          productName,
          lot === null ? "" : texts.lot(lot),
          containerCode === null ? "" : showContainerCode(containerCode),
        ]),
      ),
    ),
  );
}

function sayLate(event: Told, texts: RecordTexts, dateTime: (at: string) => string): string {
  const late = Date.parse(event.recordedAt) - Date.parse(event.occurredAt) > 60_000;
  return late ? texts.late(dateTime(event.recordedAt)) : "";
}
