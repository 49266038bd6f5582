import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { FindingNote, type FindingView } from "../ui/FindingNote.tsx";
import { Vessel } from "../ui/Vessel.tsx";
import type { Column, TrayItem, TrayStep } from "./columns.ts";
import { ContainerCard, PendingCard } from "./ContainerCard.tsx";

interface StepColumnProps {
  column: Column;
  index: number;
  onRemove: ((item: TrayItem) => void) | null;
  onOpen: () => void;
  onPass: (finding: FindingView) => void;
}

/** One step of the technique: its place for containers, and under it what there is to say. */
export function StepColumn({
  column,
  index,
  onRemove,
  onOpen,
  onPass,
}: StepColumnProps): ReactNode {
  const t = useTexts();
  const { step, usesMaterial } = column;
  return (
    <li className={usesMaterial ? "step" : "step bare"}>
      <button
        type="button"
        className="step-head"
        aria-label={t.tray.details(step.name)}
        onClick={onOpen}
      >
        <span className="step-number">{index + 1}</span>
        <span className="step-name">{step.name}</span>
        <span className="step-times">{listTimes(step, t.tray).join(" · ")}</span>
      </button>
      {usesMaterial ? (
        <StepWell {...{ column, onRemove }} />
      ) : (
        <p className="well-none">{t.tray.noMaterial}</p>
      )}
      <StepBelow {...{ column, onOpen, onPass }} />
    </li>
  );
}

function StepWell({ column, onRemove }: Pick<StepColumnProps, "column" | "onRemove">): ReactNode {
  const t = useTexts();
  const { step, items, pending } = column;
  const [kind] = step.accepts;
  if (items.length + pending.length === 0 && kind !== undefined) {
    return (
      <div className="well empty-well">
        <Vessel kind={kind} filled={false} />
        <p className="well-word">{step.required ? t.tray.missing : t.tray.optional}</p>
      </div>
    );
  }
  return (
    <div className="well">
      {items.map((item) => (
        <ContainerCard key={item.id} {...{ item, onRemove }} />
      ))}
      {pending.map((scan) => (
        <PendingCard key={scan.key} scan={scan} />
      ))}
    </div>
  );
}

function StepBelow({
  column,
  onOpen,
  onPass,
}: Omit<StepColumnProps, "index" | "onRemove">): ReactNode {
  const t = useTexts();
  const { usesMaterial, items, pending, findings, suggestions } = column;
  const isEmpty = items.length + pending.length === 0;
  const notes = findings.filter(({ level }) => level === "info").length;
  // The empty place itself says that something is missing.
  const weighty = findings.filter(({ level, code }) => level !== "info" && code !== "missing");
  const [best] = suggestions;
  return (
    <div className="step-below">
      {usesMaterial && isEmpty ? (
        <p className="fetch">
          {best === undefined
            ? t.tray.noneToFetch
            : t.tray.take(showContainerCode(best.code), best.place)}
          {best === undefined ? null : <span className="fetch-name">{best.productName}</span>}
        </p>
      ) : null}
      {weighty.map((finding) => (
        <FindingNote
          key={`${finding.code} ${finding.subject.itemId}`}
          remedyFirst
          {...{ finding, onPass }}
        />
      ))}
      {notes === 0 ? null : (
        <button type="button" className="link" onClick={onOpen}>
          {t.finding.notes(notes)}
        </button>
      )}
    </div>
  );
}

type TimeWords = Record<"apply" | "airDry" | "cure", (seconds: number) => string>;

/** The times that a step plans, in the order of the work. */
export function listTimes(step: TrayStep, words: TimeWords): readonly string[] {
  const { applicationSeconds, airDrySeconds, cureSeconds } = step;
  return [
    applicationSeconds === null ? "" : words.apply(applicationSeconds),
    airDrySeconds === null ? "" : words.airDry(airDrySeconds),
    cureSeconds === null ? "" : words.cure(cureSeconds),
  ].filter((text) => text !== "");
}
