import type { ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { getMessages } from "#texts";
import { useRead } from "../api/queries.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";

type Line = AnswerOf<"getCheckStatistics">["lines"][number];

/** How often each finding was seen and passed, by month. */
export function CheckStatistics(): ReactNode {
  const { statistics: t } = useTexts().live;
  const query = useRead("getCheckStatistics");
  const columns = useColumns();
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <p>{t.lead}</p>
      <QueryView query={query}>
        {({ lines }) =>
          lines.length === 0 ? (
            <EmptyState text={t.none} />
          ) : (
            <Table
              caption={t.title}
              columns={columns}
              rows={lines}
              rowKey={({ month, code, level }) => `${month} ${code} ${level}`}
              exportName="findings"
            />
          )
        }
      </QueryView>
    </section>
  );
}

function useColumns(): Column<Line>[] {
  const { columns } = useTexts().live.statistics;
  const { findings, levels } = getMessages(useLanguage().language);
  const of = (key: keyof typeof columns, value: (line: Line) => string): Column<Line> => ({
    key,
    label: columns[key],
    value,
    show: value,
  });
  const numeric = (column: Column<Line>): Column<Line> => ({ ...column, numeric: true });
  return [
    of("month", ({ month }) => month),
    of("finding", ({ code }) => findings[code].title),
    of("level", ({ level }) => levels[level]),
    numeric(of("seen", ({ seen }) => String(seen))),
    numeric(of("wentAhead", ({ wentAhead }) => String(wentAhead))),
    numeric(of("share", ({ seen, wentAhead }) => `${Math.round((100 * wentAhead) / seen)} %`)),
  ];
}
