import type { ReactNode } from "react";
import { Link } from "wouter";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";

type Case = AnswerOf<"listWithdrawals">["withdrawals"][number];

/** What a case covers, in one line. */
export function useScopeWords(): (scope: Case["scope"]) => string {
  const { everyLot } = useTexts().withdrawal;
  return (scope) =>
    scope.map(({ productName, lot }) => `${productName} ${lot === "" ? everyLot : lot}`).join(", ");
}

/** The cases, newest first. */
export function CaseList(): ReactNode {
  const { cases: t } = useTexts().withdrawal;
  const { language, dateTime } = useFormats();
  const { withdrawalStates } = getMessages(language);
  const query = useRead("listWithdrawals");
  const sayScope = useScopeWords();
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      <QueryView query={query}>
        {({ withdrawals }) =>
          withdrawals.length === 0 ? (
            <EmptyState text={t.empty} />
          ) : (
            <Table
              caption={t.title}
              rows={withdrawals}
              rowKey={({ id }) => id}
              exportName="withdrawals"
              columns={[
                {
                  key: "reference",
                  label: t.columns.reference,
                  value: ({ reference }) => reference,
                  show: ({ id, reference }) => (
                    <Link to={paths.withdrawal(id)} className="name-link">
                      {reference}
                    </Link>
                  ),
                },
                {
                  key: "state",
                  label: t.columns.state,
                  value: ({ state }) => withdrawalStates[state],
                  show: ({ state }) => (
                    <span className={state === "closed" ? "case-state closed" : "case-state"}>
                      {withdrawalStates[state]}
                    </span>
                  ),
                },
                {
                  key: "received",
                  label: t.columns.received,
                  value: ({ receivedAt }) => receivedAt,
                  show: ({ receivedAt }) => dateTime(receivedAt),
                },
                {
                  key: "closed",
                  label: t.columns.closed,
                  value: ({ closedAt }) => closedAt,
                  show: ({ closedAt }) => (closedAt === null ? null : dateTime(closedAt)),
                },
                {
                  key: "scope",
                  label: t.columns.scope,
                  value: ({ scope }) => sayScope(scope),
                  show: ({ scope }) => sayScope(scope),
                },
              ]}
            />
          )
        }
      </QueryView>
    </section>
  );
}
