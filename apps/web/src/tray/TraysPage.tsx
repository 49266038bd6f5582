import type { ReactNode } from "react";
import { Link, useSearchParams } from "wouter";
import { addDays, isCivilDate } from "#domain";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { addressOf } from "../api/client.ts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import type { ScreenTexts } from "#texts/screens-en";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats, type Formats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { VerdictWord } from "../ui/Verdict.tsx";
import "./trays.css";
import { showTooth } from "../texts/tooth-notation.ts";

type TrayLine = AnswerOf<"listTrays">["trays"][number];

/** The trays of a day; the day and the chart are in the address. */
export default function TraysPage(): ReactNode {
  const t = useTexts();
  const formats = useFormats();
  const [search, setSearch] = useSearchParams();
  const asked = search.get("on") ?? "";
  const on = isCivilDate(asked) ? asked : formats.today();
  const chart = search.get("chart") ?? "";
  const query = useRead("listTrays", { query: { on } }, { everyMs: 30_000 });
  const checkedAt = new Date(query.dataUpdatedAt).toISOString();
  const setFilter = (name: string, value: string) =>
    setSearch(
      (before) => {
        const next = new URLSearchParams(before);
        if (value === "") next.delete(name);
        else next.set(name, value);
        return next;
      },
      { replace: true },
    );
  return (
    <Page title={t.tray.title} lead={formats.day(on)} actions={<TraysActs on={on} />}>
      <div className="filters">
        <LinkButton to={paths.trays({ on: addDays(on, -1), chart })}>
          {t.tray.list.before}
        </LinkButton>
        <TextField
          label={t.tray.list.day}
          type="date"
          value={on}
          onChange={(event) => setFilter("on", event.target.value)}
        />
        <LinkButton to={paths.trays({ on: addDays(on, 1), chart })}>{t.tray.list.after}</LinkButton>
        <TextField
          label={t.tray.list.onlyChart}
          value={chart}
          onChange={(event) => setFilter("chart", event.target.value)}
        />
      </div>
      <QueryView query={query}>
        {({ trays }) => {
          const rows = trays.filter((tray) => matches(tray.chartNumber, chart));
          if (rows.length > 0) {
            return (
              <>
                <p className="print-only">{t.tray.list.printed(formats.dateTime(checkedAt))}</p>
                <Table
                  caption={formats.day(on)}
                  columns={makeColumns(t, formats)}
                  rows={rows}
                  rowKey={({ id }) => id}
                  exportName={`trays-${on}`}
                />
              </>
            );
          }
          return <EmptyState text={trays.length === 0 ? t.tray.list.empty : t.states.noMatch} />;
        }}
      </QueryView>
    </Page>
  );
}

function TraysActs({ on }: { on: string }): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  return (
    <>
      <LinkButton to={paths.importTrays()}>{t.import.title}</LinkButton>
      <LinkButton to={paths.templates()}>{t.templates.title}</LinkButton>
      <a
        className="button plain"
        href={addressOf("getDowntimeSheet", { query: { on, language } })}
        target="_blank"
        rel="noreferrer"
      >
        {t.tray.downtimeSheet}
      </a>
      <LinkButton to={paths.planTray({ on })} kind="main">
        {t.tray.plan.title}
      </LinkButton>
    </>
  );
}

const matches = (text: string, wanted: string): boolean =>
  text.toLowerCase().includes(wanted.trim().toLowerCase());

function makeColumns(t: ScreenTexts, formats: Formats): readonly Column<TrayLine>[] {
  const { columns } = t.tray.list;
  const { trayStates, verdicts } = getMessages(formats.language);
  const time = (tray: TrayLine) => formats.time(tray.appointmentAt);
  const set = (tray: TrayLine) => t.tray.list.items(tray.items, tray.missing);
  const of = (key: string, label: string, value: (tray: TrayLine) => string): Column<TrayLine> => ({
    key,
    label,
    value,
    show: value,
  });
  return [
    of("time", columns.time, time),
    {
      ...of("tooth", columns.tooth, (tray) => tray.teeth.join(" ")),
      show: (tray) => (
        <Link to={paths.tray(tray.id)} className="row-link">
          {t.common.tooth(tray.teeth.map(showTooth).join(", "))}
        </Link>
      ),
    },
    {
      ...of("chart", columns.chart, (tray) => tray.chartNumber),
      show: (tray) => <span className="unbroken">{tray.chartNumber}</span>,
    },
    of("technique", columns.technique, (tray) => tray.techniqueName),
    of("room", columns.room, (tray) => tray.locationName),
    of("state", columns.state, (tray) => trayStates[tray.state]),
    of("set", columns.set, set),
    {
      ...of("verdict", columns.verdict, (tray) => verdicts[tray.verdict]),
      show: (tray) => (tray.state === "cleared" ? null : <VerdictWord verdict={tray.verdict} />),
    },
  ];
}
