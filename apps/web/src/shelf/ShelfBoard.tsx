import type { ReactNode } from "react";
import { getMessages } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import type { Container } from "../ui/ContainerWords.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { spreadMarks, type ShelfAxis } from "./shelf-axis.ts";

interface ShelfBoardProps {
  containers: readonly Container[];
  columns: readonly Column<Container>[];
  axis: ShelfAxis;
}

const shown = ["choose", "product", "lot", "code", "state", "lastDay"];

/** One place: its containers as marks along the time to come, and as a list beneath. */
export function ShelfBoard({ containers, columns, axis }: ShelfBoardProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const location = containers[0]?.location;
  if (location === undefined) return null;
  const isHere = ["store", "refrigerator", "operatory", "quarantine"].includes(location.kind);
  return (
    <section className="panel shelf-board" aria-label={location.name}>
      <div className="panel-head">
        <h2>{location.name}</h2>
        <p className="hint">
          {getMessages(language).locationKinds[location.kind]} · {t.shelf.count(containers.length)}
        </p>
      </div>
      {isHere ? <ShelfPicture containers={containers} axis={axis} /> : null}
      <Table
        caption={location.name}
        columns={columns.filter(({ key }) => shown.includes(key))}
        rows={containers}
        rowKey={({ id }) => id}
      />
    </section>
  );
}

// The list beneath says all of it in words, so the picture is for the eye alone.
function ShelfPicture({ containers, axis }: Omit<ShelfBoardProps, "columns">): ReactNode {
  const t = useTexts();
  const marks = spreadMarks(
    containers.map(({ id, endsOn }) => ({ id, at: axis.place(endsOn?.date ?? null) })),
    0.0135,
  );
  const byId = new Map(containers.map((container) => [container.id, container]));
  return (
    <div className="shelf-picture" aria-hidden="true" title={t.shelf.axis}>
      {axis.ticks.map(({ months, at }) => (
        <span key={months} className="shelf-tick" style={{ "--at": at }}>
          {t.shelf.months(months)}
        </span>
      ))}
      {marks.map(({ id, at }) => {
        const container = byId.get(id);
        const past =
          at === 0 || (container?.endsOn ? axis.place(container.endsOn.date) === 0 : false);
        return (
          <span
            key={id}
            className={`shelf-mark ${container?.state ?? ""} ${past ? "past" : ""}`}
            style={{ "--at": at }}
          />
        );
      })}
    </div>
  );
}
