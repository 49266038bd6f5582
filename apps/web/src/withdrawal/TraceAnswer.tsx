import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { ApiProblem } from "../api/problem.ts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { saveCsv } from "../ui/csv.ts";
import { QueryView } from "../ui/States.tsx";
import { EnterButton } from "./EnterButton.tsx";
import { LotTrace } from "./LotTrace.tsx";
import { listAffected } from "./sums.ts";
import { useToothColumns } from "./useToothColumns.tsx";
import type { Asked } from "./asked.ts";

type Trace = AnswerOf<"traceStock">;

/** What the books answer: every lot that is meant, and beside them those that only look alike. */
export function TraceAnswer({ asked }: { asked: Asked }): ReactNode {
  const { answer: t } = useTexts().withdrawal;
  const query = useRead("traceStock", { query: { ...asked } });
  const isUnknown = query.error instanceof ApiProblem && query.error.code === "not-found";
  if (isUnknown) return <NoneHere asked={asked} text={t.unknown} />;
  return <QueryView query={query}>{(trace) => <Answer trace={trace} asked={asked} />}</QueryView>;
}

function Answer({ trace, asked }: { trace: Trace; asked: Asked }): ReactNode {
  const { answer: t } = useTexts().withdrawal;
  return (
    <>
      {trace.lots.length === 0 ? (
        <NoneHere asked={asked} text={t.noneText} />
      ) : (
        <AnswerHead trace={trace} asked={asked} />
      )}
      <LookAlikes found={trace.lookAlikes} />
      {trace.lots.map((lot) => (
        <LotTrace key={lot.lotId} lot={lot} />
      ))}
    </>
  );
}

function useAskedWords(asked: Asked): string {
  const { answer: t } = useTexts().withdrawal;
  const words = [
    asked.lot === undefined ? "" : t.lot(asked.lot),
    asked.identifier === undefined ? "" : t.identifier(asked.identifier),
    asked.container === undefined ? "" : t.container(showContainerCode(asked.container)),
  ];
  return words.filter((word) => word !== "").join(", ");
}

function AnswerHead({ trace, asked }: { trace: Trace; asked: Asked }): ReactNode {
  const t = useTexts();
  const { answer } = t.withdrawal;
  const { dateTime } = useFormats();
  const columns = useToothColumns(true);
  const affected = listAffected(trace.lots);
  return (
    <div className="page-head">
      <div>
        <h2 className="trace-title">{answer.title(useAskedWords(asked))}</h2>
        <p className="lead">{answer.at(dateTime(trace.at))}</p>
      </div>
      <div className="actions">
        {affected.length === 0 ? null : (
          <Button onClick={() => saveCsv("affected-teeth", columns, affected)}>
            {answer.saveTeeth}
          </Button>
        )}
        <Button onClick={() => window.print()}>{t.common.print}</Button>
        <EnterButton
          kind="main"
          lot={asked.lot ?? ""}
          offered={trace.lots.map(({ product, lot }) => ({
            productId: product.id,
            productName: product.name,
            lot,
          }))}
        />
      </div>
    </div>
  );
}

function NoneHere({ asked, text }: { asked: Asked; text: string }): ReactNode {
  const { answer: t } = useTexts().withdrawal;
  return (
    <section className="panel none-here">
      <p className="hint">{t.title(useAskedWords(asked))}</p>
      <h2>{t.none}</h2>
      <p>{text}</p>
      <EnterButton lot={asked.lot ?? ""} />
    </section>
  );
}

/** Offered to a person's eyes, one by one; never counted in. */
function LookAlikes({ found }: { found: Trace["lookAlikes"] }): ReactNode {
  const { lookAlikes: t } = useTexts().withdrawal;
  if (found.length === 0) return null;
  return (
    <section className="look-alikes">
      <div>
        <h2>{t.title}</h2>
        <p>{t.text}</p>
      </div>
      <ul>
        {found.map(({ lotId, lot, productName }) => (
          <li key={lotId}>
            <Link
              to={paths.withdrawals({ lot })}
              className="button"
              aria-label={`${t.look}: ${lot}`}
            >
              <span className="code">{lot}</span> {productName}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
