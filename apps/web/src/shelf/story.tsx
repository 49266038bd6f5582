import type { ReactNode } from "react";
import { Link } from "wouter";
import type { AnswerOf } from "#contracts/operations";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useStepNames } from "../texts/useStepNames.ts";
import { Button } from "../ui/Button.tsx";
import type { TimelineEvent } from "../ui/Timeline.tsx";
import { findUndoable } from "./undoable.ts";
import type { Movement } from "./UndoDialog.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

type Story = AnswerOf<"getContainer">;

/** The life of a container as events, oldest first, with its last day of use at the end. */
export function useStoryEvents(
  { container, movements, uses }: Story,
  onUndo: (movement: Movement) => void,
): readonly TimelineEvent[] {
  const t = useTexts();
  const { events: said } = t.shelf;
  const formats = useFormats();
  const stepName = useStepNames();
  const undoable = findUndoable(movements);
  const sayMovement = useSayMovement();
  const moved = movements.map((movement): TimelineEvent => ({
    ...sayMovement(movement),
    key: movement.id,
    at: movement.occurredAt,
    when: formats.dateTime(movement.occurredAt),
    detail: (
      <MovementDetail
        movement={movement}
        onUndo={movement.id === undoable ? () => onUndo(movement) : undefined}
      />
    ),
  }));
  const used = uses.map((use): TimelineEvent => ({
    key: `${use.recordId} ${use.stepKey} ${use.usedAt}`,
    at: use.usedAt,
    when: formats.dateTime(use.usedAt),
    title: (
      <Link to={paths.record(use.recordId)} className="reach">
        {said.used(showTooth(use.tooth), use.chartNumber)}
      </Link>
    ),
    detail: said.step(stepName(use.stepKey)),
    tone: "good",
  }));
  const days: Sorted[] = [];
  if (container.openedOn !== null) {
    const at = container.openedOn;
    const opened = { key: "opened", at, when: formats.shortDate(at), title: said.opened };
    days.push({ event: opened, order: orderOfOpening(at, uses[0]?.usedAt) });
  }
  const { endsOn } = container;
  if (endsOn !== null && ["sealed", "open", "quarantined"].includes(container.state)) {
    const end: TimelineEvent = {
      key: "end",
      at: endsOn.date,
      when: formats.shortDate(endsOn.date),
      title: said.lastDay,
      detail: t.shelf.decidedBy[endsOn.decidedBy],
      tone: endsOn.date < formats.today() ? "bad" : "look",
    };
    days.push({ event: end, order: endOfDay(endsOn.date) });
  }
  const timed = [...moved, ...used].map((event) => ({ event, order: event.at }));
  return [...days, ...timed]
    .sort((a, b) => (a.order < b.order ? -1 : a.order > b.order ? 1 : 0))
    .map(({ event }) => event);
}

interface Sorted {
  event: TimelineEvent;
  order: string;
}

// Later than every instant of that day, as text.
const endOfDay = (civilDate: string): string => `${civilDate}T~`;

/** The hour of an opening is not known: it stands last in its day, yet before a first use. */
function orderOfOpening(on: string, firstUse: string | undefined): string {
  const end = endOfDay(on);
  return firstUse !== undefined && firstUse < end ? firstUse : end;
}

function useSayMovement(): (movement: Movement) => Pick<TimelineEvent, "title" | "tone"> {
  const { events: said, reasons } = useTexts().shelf;
  return (movement) => {
    const { from, to, reason, reversedBy } = movement;
    if (reason === "received") {
      return { title: said.received(to), tone: reversedBy === null ? "good" : "plain" };
    }
    const name = Object.hasOwn(reasons, reason) ? reasons[reason as keyof typeof reasons] : reason;
    const tone = reason === "quarantined" && reversedBy === null ? "look" : "plain";
    return { title: `${said.moved(from, to)} · ${name}`, tone };
  };
}

interface MovementDetailProps {
  movement: Movement;
  onUndo: (() => void) | undefined;
}

function MovementDetail({ movement, onUndo }: MovementDetailProps): ReactNode {
  const { events: said, undo } = useTexts().shelf;
  const { dateTime } = useFormats();
  const { person, note, occurredAt, recordedAt, reverses, reversedBy } = movement;
  const late = Date.parse(recordedAt) - Date.parse(occurredAt) > 60_000;
  const parts = [
    said.by(person),
    note,
    late ? said.toldLater(dateTime(recordedAt)) : "",
    reversedBy === null ? "" : said.undone,
    reverses === null ? "" : said.undoes,
  ];
  return (
    <>
      <p>{parts.filter((part) => part !== "").join(" · ")}</p>
      {onUndo === undefined ? null : (
        <Button kind="quiet" className="small screen-only" onClick={onUndo}>
          {undo.button}
        </Button>
      )}
    </>
  );
}
