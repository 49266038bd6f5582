import type { ReactNode } from "react";
import { Link } from "wouter";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table, type Column } from "../ui/Table.tsx";
import { useFilter } from "../ui/useFilter.ts";
import { Verify } from "./Verify.tsx";

type Entry = AnswerOf<"listAudit">["entries"][number];
const pageSize = 50;

/** The audit trail, newest first, a page at a time; which page stands in the address. */
export function AuditPart(): ReactNode {
  const { audit: t } = useTexts().practice;
  const filter = useFilter();
  const before = Number(filter.get("before"));
  const query = useRead("listAudit", {
    query: { limit: pageSize, ...(before > 0 ? { before } : {}) },
  });
  return (
    <>
      <p className="lead">{t.lead}</p>
      <Verify />
      <QueryView query={query}>
        {({ entries }) => {
          const last = entries.at(-1)?.sequence ?? 0;
          return (
            <>
              {entries.length === 0 ? (
                <EmptyState text={t.empty} />
              ) : (
                <EntryTable entries={entries} />
              )}
              <div className="actions">
                {before > 0 ? (
                  <Button onClick={() => filter.set({ before: "" })}>{t.newest}</Button>
                ) : null}
                {last > 1 ? (
                  <Button onClick={() => filter.set({ before: String(last) })}>{t.older}</Button>
                ) : null}
              </div>
            </>
          );
        }}
      </QueryView>
    </>
  );
}

function EntryTable({ entries }: { entries: readonly Entry[] }): ReactNode {
  const { parts } = useTexts().practice;
  const columns = useEntryColumns();
  return (
    <Table
      caption={parts.audit}
      columns={columns}
      rows={entries}
      rowKey={({ sequence }) => String(sequence)}
      exportName={`audit-from-${entries.at(-1)?.sequence ?? 0}`}
    />
  );
}

function nameOf(names: Readonly<Record<string, string>>, key: string): string {
  return Object.hasOwn(names, key) ? (names[key] ?? key) : key;
}

function useEntryColumns(): readonly Column<Entry>[] {
  const { audit: t } = useTexts().practice;
  const { dateTime } = useFormats();
  const of = (key: keyof typeof t.columns, value: (entry: Entry) => string | number) => ({
    key,
    label: t.columns[key],
    value,
    show: value as (entry: Entry) => ReactNode,
  });
  return [
    { ...of("sequence", ({ sequence }) => sequence), numeric: true },
    { ...of("at", ({ at }) => at), show: ({ at }) => dateTime(at) },
    of("person", ({ person }) => person ?? t.nobody),
    {
      ...of("action", ({ action }) => nameOf(t.actions, action)),
      show: ({ action }) => <strong>{nameOf(t.actions, action)}</strong>,
    },
    {
      ...of("subject", ({ subject }) => subject),
      show: ({ subject }) => <SubjectLink subject={subject} />,
    },
    {
      ...of("change", ({ change }) => change),
      show: ({ change, hash }) => <Change change={change} hash={hash} />,
    },
    { key: "hash", label: t.columns.hash, value: ({ hash }) => hash, show: shortHash },
  ];
}

const shortHash = ({ hash }: Entry): ReactNode => (
  <span className="code soft">{hash.slice(0, 8)}</span>
);

const pathsOf: Readonly<Record<string, (id: string) => string>> = {
  container: paths.container,
  delivery: paths.delivery,
  product: paths.product,
  record: paths.record,
  tray: paths.tray,
  withdrawal: paths.withdrawal,
};

/** What an entry is about; a link where there is a page for it. */
function SubjectLink({ subject }: { subject: string }): ReactNode {
  const { audit: t } = useTexts().practice;
  const [kind = "", id = ""] = subject.split(":");
  const name = nameOf(t.subjects, kind);
  const pathOf = Object.hasOwn(pathsOf, kind) ? pathsOf[kind] : undefined;
  if (pathOf === undefined) return <span title={id}>{name}</span>;
  return (
    <Link to={pathOf(id)} className="name-link">
      {name}
    </Link>
  );
}

/** The change exactly as it is hashed. */
function Change({ change, hash }: { change: string; hash: string }): ReactNode {
  const { audit: t } = useTexts().practice;
  return (
    <details className="audit-change">
      <summary>{t.details}</summary>
      {change === "{}" ? null : <p className="code">{change}</p>}
      <p className="code soft">{hash}</p>
    </details>
  );
}
