import { useMemo, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import { getMessages } from "#texts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { CodeLabel } from "../ui/CodeLabel.tsx";
import { LastDay, StateWord, type Container } from "../ui/ContainerWords.tsx";
import { saveCsv } from "../ui/csv.ts";
import { Page } from "../ui/Page.tsx";
import { EmptyState, Loading, ProblemNote } from "../ui/States.tsx";
import type { Column } from "../ui/Table.tsx";
import { useFilter } from "../ui/useFilter.ts";
import { LabelChoice, useChoiceColumn } from "./LabelChoice.tsx";
import { PutAwayDialog } from "./PutAwayDialog.tsx";
import { makeAxis } from "./shelf-axis.ts";
import { ShelfBoard } from "./ShelfBoard.tsx";
import { ShelfFilter } from "./ShelfFilter.tsx";
import { useContainers } from "./useContainers.ts";
import { useFindScanned } from "./useFindScanned.ts";
import "./shelf.css";

/** Every place a shelf, and what ends first on it first; the filter is in the address. */
export default function ShelfPage(): ReactNode {
  const t = useTexts();
  const filter = useFilter();
  const { query, containers } = useContainers(filter);
  const columns = useContainerColumns();
  useScanTarget(useFindScanned(), t.shelf.scanTarget);
  const [putsAway, putAway] = useState(false);
  const [chosen, choose] = useState<ReadonlySet<string> | null>(null);
  const choiceColumn = useChoiceColumn(chosen, choose);
  const count = containers?.length ?? 0;
  const lead = query.hasNextPage ? t.shelf.leadMore(count) : t.shelf.lead(count);
  return (
    <Page
      title={t.shelf.title}
      lead={containers === undefined ? undefined : lead}
      actions={
        containers === undefined || count === 0 ? null : (
          <>
            <Button onClick={() => putAway(true)}>{t.labels.putAway.button}</Button>
            <Button
              aria-pressed={chosen !== null}
              onClick={() => choose(chosen ? null : new Set())}
            >
              {t.labels.choosing.begin}
            </Button>
            <Button onClick={() => saveCsv("shelf", columns, containers)}>{t.common.export}</Button>
            <Button onClick={() => window.print()}>{t.common.print}</Button>
          </>
        )
      }
    >
      <ShelfFilter filter={filter} />
      {chosen === null || containers === undefined ? null : (
        <LabelChoice {...{ containers, chosen }} onEnd={() => choose(null)} />
      )}
      {containers === undefined && query.error === null ? <Loading /> : null}
      <ProblemNote error={query.error} onRetry={() => void query.refetch()} />
      {containers === undefined ? null : (
        <Shelves containers={containers} columns={[...choiceColumn, ...columns]} />
      )}
      {query.hasNextPage ? (
        <div className="actions">
          <Button busy={query.isFetchingNextPage} onClick={() => void query.fetchNextPage()}>
            {t.shelf.filter.more}
          </Button>
        </div>
      ) : null}
      {putsAway ? <PutAwayDialog onClose={() => putAway(false)} /> : null}
    </Page>
  );
}

interface ShelvesProps {
  containers: readonly Container[];
  columns: readonly Column<Container>[];
}

function Shelves({ containers, columns }: ShelvesProps): ReactNode {
  const t = useTexts();
  const { today } = useFormats();
  const filter = useFilter();
  const day = today();
  const axis = useMemo(
    () =>
      makeAxis(
        day,
        containers.map(({ endsOn }) => endsOn?.date ?? null),
      ),
    [day, containers],
  );
  if (containers.length === 0) {
    const filtered = ["location", "product", "lot", "state", "q"].some((part) => filter.get(part));
    if (filtered) return <EmptyState text={t.states.noMatch} />;
    const toReceive = <LinkButton to={paths.receive()}>{t.shelf.toReceive}</LinkButton>;
    return <EmptyState text={t.shelf.empty} action={toReceive} />;
  }
  return groupByPlace(containers).map((group) => (
    <ShelfBoard key={group[0]?.location.id} {...{ axis, columns }} containers={group} />
  ));
}

/** The places by name, quarantine and what has left the practice last. */
function groupByPlace(containers: readonly Container[]): Container[][] {
  const groups = new Map<string, Container[]>();
  for (const container of containers) {
    const group = groups.get(container.location.id);
    if (group === undefined) groups.set(container.location.id, [container]);
    else group.push(container);
  }
  const rank = ([first]: Container[]): number => {
    const kind = first?.location.kind ?? "store";
    if (kind === "quarantine") return 1;
    return kind === "store" || kind === "refrigerator" || kind === "operatory" ? 0 : 2;
  };
  const nameOf = ([first]: Container[]) => first?.location.name ?? "";
  return [...groups.values()].sort(
    (a, b) => rank(a) - rank(b) || nameOf(a).localeCompare(nameOf(b)),
  );
}

function useContainerColumns(): readonly Column<Container>[] {
  const t = useTexts();
  const { language } = useFormats();
  return useMemo(() => {
    const { containerStates, productKinds } = getMessages(language);
    const { columns, decidedBy } = t.shelf;
    const only = (key: string, label: string, value: (one: Container) => string | null) => ({
      key,
      label,
      value,
      show: () => null as ReactNode,
    });
    return [
      {
        ...only("product", columns.product, ({ product }) => product.name),
        show: ({ id, product }) => (
          <Link to={paths.container(id)} className="name-link">
            {product.name}
          </Link>
        ),
      },
      only("kind", columns.kind, ({ product }) => productKinds[product.kind]),
      { ...only("lot", columns.lot, ({ lot }) => lot), show: ({ lot }) => lot },
      {
        ...only("code", columns.code, ({ code }) => showContainerCode(code)),
        show: ({ id, code }) => <CodeLabel id={id} code={code} />,
      },
      {
        ...only("state", columns.state, ({ state }) => containerStates[state]),
        show: ({ state }) => <StateWord state={state} />,
      },
      {
        ...only("lastDay", columns.lastDay, ({ endsOn }) => endsOn?.date ?? null),
        show: ({ endsOn }) => <LastDay endsOn={endsOn} />,
      },
      only("decidedBy", columns.decidedBy, ({ endsOn }) =>
        endsOn === null ? null : decidedBy[endsOn.decidedBy],
      ),
      only("place", columns.place, ({ location }) => location.name),
      only("serial", columns.serial, ({ serial }) => serial),
    ] satisfies Column<Container>[];
  }, [t, language]);
}
