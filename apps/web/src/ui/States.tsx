import type { UseQueryResult } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { sayProblem } from "#texts";
import { ApiProblem } from "../api/problem.ts";
import { useFormats } from "../texts/useFormats.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";

export function Loading(): ReactNode {
  const t = useTexts();
  return (
    <p className="loading" role="status">
      {t.common.loading}
    </p>
  );
}

/** Nothing to show, and what to do about it. */
export function EmptyState({ text, action }: { text: string; action?: ReactNode }): ReactNode {
  return (
    <div className="empty">
      <p>{text}</p>
      {action ? <div className="actions">{action}</div> : null}
    </div>
  );
}

/** What a problem says in the language chosen; the server's own detail where it says more. */
export function useSayError(): (error: unknown) => string {
  const t = useTexts();
  const { language } = useLanguage();
  return (error) => {
    if (!(error instanceof ApiProblem)) return t.states.unreachable;
    return sayProblem(language, error.code, error.values);
  };
}

/** What did not work, why, and what to do. Nothing where `error` is null. */
export function ProblemNote({
  error,
  onRetry,
}: {
  error: unknown;
  onRetry?: () => void;
}): ReactNode {
  const t = useTexts();
  const say = useSayError();
  if (error === null || error === undefined) return null;
  const problem = error instanceof ApiProblem ? error : null;
  return (
    <div className="problem" role="alert">
      <p className="problem-title">{t.states.problem}</p>
      <p>{say(error)}</p>
      {problem?.errors.length ? (
        <ul>
          {problem.errors.map((one) => (
            <li key={one.path}>
              <code>{one.path}</code> {one.message}
            </li>
          ))}
        </ul>
      ) : null}
      {problem !== null && isOurFault(problem) && problem.instance !== "" ? (
        <p className="hint">{t.states.requestNumber(problem.instance)}</p>
      ) : null}
      {onRetry ? (
        <Button kind="quiet" onClick={onRetry}>
          {t.common.reload}
        </Button>
      ) : null}
    </div>
  );
}

/** A fault of the server itself, to be looked up in its log; 502 is of something beyond it. */
const isOurFault = ({ status }: ApiProblem): boolean => status >= 500 && status !== 502;

interface QueryViewProps<T> {
  query: UseQueryResult<T>;
  children: (data: T) => ReactNode;
}

/** The data of a query, or that it is being fetched, or why it is not there, or how old it is. */
export function QueryView<T>({ query, children }: QueryViewProps<T>): ReactNode {
  const t = useTexts();
  const formats = useFormats();
  const { data, error, dataUpdatedAt, refetch } = query;
  if (data === undefined) {
    if (error === null) return <Loading />;
    return <ProblemNote error={error} onRetry={() => void refetch()} />;
  }
  return (
    <>
      {error === null ? null : (
        <p className="old-data" role="status">
          {t.states.olderData(formats.dateTime(new Date(dataUpdatedAt).toISOString()))}
        </p>
      )}
      {children(data)}
    </>
  );
}

/** The message for one field out of a refused request, by the end of its path. */
export function fieldError(error: unknown, field: string): string | undefined {
  if (!(error instanceof ApiProblem)) return undefined;
  return error.errors.find(({ path }) => path === `/body/${field}`)?.message;
}
