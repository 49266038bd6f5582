import type { ReactNode } from "react";
import { daysBetween, type ContainerState } from "#domain";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { VerdictShape } from "./Verdict.tsx";

export type Container = AnswerOf<"getContainer">["container"];

const kept: readonly ContainerState[] = ["sealed", "open", "quarantined"];

/** The state of a container by shape and word. */
export function StateWord({ state }: { state: ContainerState }): ReactNode {
  const { language } = useFormats();
  return (
    <span className={`state-word ${kept.includes(state) ? state : "gone"}`}>
      {getMessages(language).containerStates[state]}
    </span>
  );
}

/** The last day of use and how far off it is; one that is past is marked by shape and word. */
export function LastDay({ endsOn }: { endsOn: Container["endsOn"] }): ReactNode {
  const t = useTexts();
  const { shortDate, today } = useFormats();
  if (endsOn === null) return <span className="soft">{t.common.noEnd}</span>;
  const days = daysBetween(today(), endsOn.date);
  return (
    <span className={days < 0 ? "last-day past" : "last-day"}>
      {days < 0 ? <VerdictShape verdict="stop" /> : null}
      <span>
        {shortDate(endsOn.date)} <span className="soft">{t.shelf.daysOff(days)}</span>
      </span>
    </span>
  );
}
