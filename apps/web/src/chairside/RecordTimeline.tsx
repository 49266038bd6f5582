import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import type { ScreenTexts } from "#texts/screens-en";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats, type Formats } from "../texts/useFormats.ts";
import { Timeline, type TimelineEvent } from "../ui/Timeline.tsx";
import type { RecordView } from "./steps.ts";

// Told so much later than it happened is marked as late.
const lateMs = 120_000;

/** What happened at a tooth, step by step, with every container and lot. */
export function RecordTimeline({ record }: { record: RecordView }): ReactNode {
  const t = useTexts();
  const formats = useFormats();
  const events = [...listEvents(record, t, formats), ...listMaterials(record, t, formats)];
  events.sort((a, b) => (a.at < b.at ? -1 : Number(a.at > b.at)));
  return <Timeline label={t.chairside.timeline} events={events} />;
}

function listEvents(record: RecordView, t: ScreenTexts, formats: Formats): TimelineEvent[] {
  const nameOf = (key: string | null) => record.steps.find((step) => step.key === key)?.name ?? "";
  const shown = record.events.filter(({ kind }) => kind !== "material" && kind !== "not-scanned");
  return shown.map((event): TimelineEvent => {
    const { kind, facts, occurredAt, recordedAt, person, stepKey } = event;
    const seconds = facts["seconds"];
    const text = facts["text"];
    const isLate = Date.parse(recordedAt) - Date.parse(occurredAt) > lateMs;
    const details = [
      typeof seconds === "number" ? t.chairside.took(seconds) : "",
      typeof text === "string" ? text : "",
      person,
      isLate ? t.chairside.late(formats.dateTime(recordedAt)) : "",
    ];
    return {
      key: `event ${event.sequence}`,
      at: occurredAt,
      when: formats.time(occurredAt),
      title: [nameOf(stepKey), t.chairside.events[kind] ?? kind].filter((part) => part).join(": "),
      detail: details.filter((part) => part !== "").join(" · "),
      tone: kind === "deviation" ? "look" : kind === "step-done" ? "good" : "plain",
    };
  });
}

function listMaterials(record: RecordView, t: ScreenTexts, formats: Formats): TimelineEvent[] {
  return record.materials.map((material): TimelineEvent => {
    const { productName, lot, containerCode, notScannedReason, usedAt, useBy } = material;
    const details = [
      containerCode === null ? "" : showContainerCode(containerCode),
      lot === null ? t.chairside.lotUnknown : t.chairside.lot(lot),
      useBy === null ? "" : t.records.record.useBy(formats.shortDate(useBy)),
      notScannedReason ?? "",
    ];
    return {
      key: `material ${material.id}`,
      at: usedAt,
      when: formats.time(usedAt),
      title: productName,
      detail: details.filter((part) => part !== "").join(" · "),
      tone: notScannedReason === null ? "plain" : "look",
    };
  });
}
