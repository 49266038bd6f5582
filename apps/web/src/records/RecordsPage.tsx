import { useInfiniteQuery } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { Link } from "wouter";
import { getMessages } from "#texts";
import type { AnswerOf, QueryOf } from "#contracts/operations";
import { call } from "../api/client.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, Loading, ProblemNote } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { useFilter, type Filter } from "../ui/useFilter.ts";
import { PatientLots } from "./PatientLots.tsx";
import { RecordSearch } from "./RecordSearch.tsx";
import { useLotOfScan } from "./useLotOfScan.ts";
import "./records.css";
import { showTooth } from "../texts/tooth-notation.ts";

type Line = AnswerOf<"listRecords">["records"][number];
type Asked = NonNullable<QueryOf<"listRecords">>;
const parts = ["chart", "tooth", "lot", "on"] as const;

function askedOf(filter: Filter): Asked {
  const set = parts.filter((part) => filter.get(part) !== "");
  return { ...Object.fromEntries(set.map((part) => [part, filter.get(part)])), limit: 100 };
}

function useRecords(asked: Asked) {
  return useInfiniteQuery({
    queryKey: ["listRecords", { query: asked }, "pages"],
    queryFn: ({ pageParam }) =>
      call("listRecords", {
        query: pageParam === null ? asked : { ...asked, after: pageParam },
      }),
    initialPageParam: null as string | null,
    getNextPageParam: (page) => page.next,
  });
}

/** The records by chart, tooth, day and lot; for one chart, what its teeth carry as well. */
export default function RecordsPage(): ReactNode {
  const t = useTexts();
  const filter = useFilter();
  const asked = askedOf(filter);
  const query = useRecords(asked);
  useScanTarget(
    useLotOfScan((lot) => filter.set({ lot })),
    t.records.scanTarget,
  );
  const isFiltered = parts.some((part) => filter.get(part) !== "");
  const records = query.data?.pages.flatMap((page) => page.records);
  return (
    <Page
      title={t.records.title}
      lead={t.records.lead}
      actions={<LinkButton to={paths.waiting()}>{t.waiting.fromRecords}</LinkButton>}
    >
      <RecordSearch key={parts.map((part) => filter.get(part)).join("\n")} filter={filter} />
      {records === undefined && query.error === null ? <Loading /> : null}
      <ProblemNote error={query.error} onRetry={() => void query.refetch()} />
      {records === undefined ? null : <RecordTable {...{ records, isFiltered }} />}
      {query.hasNextPage ? (
        <div className="actions">
          <Button busy={query.isFetchingNextPage} onClick={() => void query.fetchNextPage()}>
            {t.records.search.more}
          </Button>
        </div>
      ) : null}
      {filter.get("chart") === "" ? null : (
        <PatientLots chart={filter.get("chart")} tooth={filter.get("tooth")} />
      )}
    </Page>
  );
}

interface RecordTableProps {
  records: readonly Line[];
  isFiltered: boolean;
}

function RecordTable({ records, isFiltered }: RecordTableProps): ReactNode {
  const t = useTexts();
  const columns = useRecordColumns();
  if (records.length === 0) {
    return <EmptyState text={isFiltered ? t.states.noMatch : t.records.empty} />;
  }
  return (
    <Table
      caption={t.records.title}
      columns={columns}
      rows={records}
      rowKey={({ id }) => id}
      exportName="records"
    />
  );
}

function useRecordColumns(): readonly Column<Line>[] {
  const t = useTexts();
  const { language, dateTime } = useFormats();
  const { columns, visits } = t.records;
  const { recordStates } = getMessages(language);
  const of = (key: keyof typeof columns, value: (line: Line) => string | number | null) => ({
    key,
    label: columns[key],
    value,
    show: value as (line: Line) => ReactNode,
  });
  return [
    {
      ...of("started", ({ startedAt }) => startedAt),
      show: ({ id, startedAt }) => (
        <Link to={paths.record(id)} className="name-link whole">
          {dateTime(startedAt)}
        </Link>
      ),
    },
    {
      ...of("chart", ({ chartNumber }) => chartNumber),
      show: ({ chartNumber }) => (
        <Link to={paths.records({ chart: chartNumber })} className="name-link whole">
          {chartNumber}
        </Link>
      ),
    },
    {
      ...of("tooth", ({ tooth }) => tooth),
      show: ({ tooth }) => <strong>{showTooth(tooth)}</strong>,
    },
    of("technique", ({ techniqueName }) => techniqueName),
    of("visit", ({ visit }) => visits[visit]),
    {
      ...of("state", ({ state }) => recordStates[state]),
      show: ({ state }) => <span className={`record-state ${state}`}>{recordStates[state]}</span>,
    },
    {
      ...of("signed", ({ signedAt }) => signedAt),
      show: ({ signedAt }) => (signedAt === null ? null : dateTime(signedAt)),
    },
    { ...of("materials", ({ materials }) => materials), numeric: true },
  ];
}
