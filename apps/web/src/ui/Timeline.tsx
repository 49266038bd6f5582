import type { ReactNode } from "react";

export interface TimelineEvent {
  key: string;
  /** An instant or a civil date, for machines. */
  at: string;
  /** The same for people. */
  when: string;
  title: ReactNode;
  /** Who, where, why. */
  detail?: ReactNode;
  tone?: "plain" | "good" | "look" | "bad";
}

/** The life story of a container, a lot, a tooth or a record: one line, oldest first. */
export function Timeline({
  label,
  events,
}: {
  label: string;
  events: readonly TimelineEvent[];
}): ReactNode {
  return (
    <ol className="timeline" aria-label={label}>
      {events.map((event) => (
        <li key={event.key} className={event.tone ?? "plain"}>
          <time dateTime={event.at}>{event.when}</time>
          <div>
            <p className="timeline-title">{event.title}</p>
            {event.detail ? <div className="timeline-detail">{event.detail}</div> : null}
          </div>
        </li>
      ))}
    </ol>
  );
}
