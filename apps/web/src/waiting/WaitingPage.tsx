import { useInfiniteQuery } from "@tanstack/react-query";
import { useState, type FormEvent, type ReactNode } from "react";
import type { WaitingQuery, WaitingSeal } from "#contracts/waiting";
import { call } from "../api/client.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { saveCsv } from "../ui/csv.ts";
import { Choice, TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { Page } from "../ui/Page.tsx";
import { EmptyState, Loading, ProblemNote } from "../ui/States.tsx";
import { useFilter, type Filter } from "../ui/useFilter.ts";
import { OffDialog } from "./OffDialog.tsx";
import { useWaitingColumns } from "./useWaitingColumns.ts";
import { WaitingRow } from "./WaitingRow.tsx";
import "./waiting.css";

type List = WaitingQuery["list"];
const lists = ["waiting", "overdue", "off"] as const satisfies readonly List[];

const listOf = (filter: Filter): List =>
  lists.find((list) => list === filter.get("list")) ?? "waiting";

function useWaiting(list: List, chart: string) {
  const asked = { list, limit: 100, ...(chart === "" ? {} : { chart }) };
  return useInfiniteQuery({
    queryKey: ["listWaiting", { query: asked }, "pages"],
    queryFn: ({ pageParam }) =>
      call("listWaiting", { query: pageParam === null ? asked : { ...asked, after: pageParam } }),
    initialPageParam: null as string | null,
    getNextPageParam: (page) => page.next,
  });
}

/** Which sealed teeth wait for their restoration, the longest waiting first. */
export default function WaitingPage(): ReactNode {
  const { waiting: t } = useTexts();
  const filter = useFilter();
  const list = listOf(filter);
  const query = useWaiting(list, filter.get("chart"));
  const [leaving, leave] = useState<WaitingSeal | null>(null);
  const seals = query.data?.pages.flatMap((page) => page.seals);
  const limit = query.data?.pages[0]?.limitDays;
  return (
    <Page
      title={t.title}
      lead={limit === undefined ? t.lead : `${t.lead} ${t.limit(limit)}`}
      actions={<LinkButton to={paths.records()}>{t.toRecords}</LinkButton>}
    >
      <WaitingFilter key={filter.get("chart")} filter={filter} list={list} />
      {seals === undefined && query.error === null ? <Loading /> : null}
      <ProblemNote error={query.error} onRetry={() => void query.refetch()} />
      {seals === undefined ? null : <Seals {...{ seals, list }} onLeave={leave} />}
      {query.hasNextPage ? (
        <div className="actions">
          <Button busy={query.isFetchingNextPage} onClick={() => void query.fetchNextPage()}>
            {t.more}
          </Button>
        </div>
      ) : null}
      {leaving === null ? null : <OffDialog seal={leaving} onClose={() => leave(null)} />}
    </Page>
  );
}

function WaitingFilter({ filter, list }: { filter: Filter; list: List }): ReactNode {
  const { waiting: t } = useTexts();
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    filter.set({ chart: readText(event.currentTarget, "chart") });
  }
  return (
    <search className="waiting-filter">
      <Choice
        label={t.which}
        options={lists.map((value) => ({ value, label: t.lists[value] }))}
        value={list}
        onChoose={(chosen) => filter.set({ list: chosen === "waiting" ? "" : chosen })}
      />
      <form className="waiting-search" onSubmit={submit}>
        <TextField
          label={t.chart}
          name="chart"
          maxLength={40}
          defaultValue={filter.get("chart")}
          autoComplete="off"
        />
        <Button type="submit">{t.search}</Button>
      </form>
    </search>
  );
}

interface SealsProps {
  seals: readonly WaitingSeal[];
  list: List;
  onLeave: (seal: WaitingSeal) => void;
}

function Seals({ seals, list, onLeave }: SealsProps): ReactNode {
  const { common, waiting: t } = useTexts();
  const columns = useWaitingColumns();
  if (seals.length === 0) return <EmptyState text={t.empty[list]} />;
  return (
    <>
      <ul className="waiting">
        {seals.map((seal) => (
          <WaitingRow key={seal.sealId} seal={seal} onLeave={() => onLeave(seal)} />
        ))}
      </ul>
      <div className="actions table-actions">
        <Button kind="quiet" onClick={() => saveCsv("waiting", columns, seals)}>
          {common.export}
        </Button>
        <Button kind="quiet" onClick={() => window.print()}>
          {common.print}
        </Button>
      </div>
    </>
  );
}
