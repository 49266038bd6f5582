import type { ReactNode } from "react";
import { formatNumber } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";

type Verification = AnswerOf<"verifyAudit">;

/** Has the whole chain, the ledger and all signatures checked, and says what came out. */
export function Verify(): ReactNode {
  const { audit: t } = useTexts().practice;
  const { data, error, isFetching, refetch } = useRead("verifyAudit", {}, { enabled: false });
  return (
    <section className="panel verify">
      <div className="panel-head">
        <div role="status">
          {isFetching ? <p>{t.verifying}</p> : null}
          {data === undefined && !isFetching ? <p>{t.verifyHint}</p> : null}
          {data === undefined || isFetching ? null : <Outcome found={data} />}
        </div>
        <Button kind="main" busy={isFetching} onClick={() => void refetch()}>
          {t.verify}
        </Button>
      </div>
      <ProblemNote error={error} />
    </section>
  );
}

function Outcome({ found }: { found: Verification }): ReactNode {
  const { audit: t } = useTexts().practice;
  const { language } = useFormats();
  const number = (count: number) => formatNumber(language, count);
  const { ok, entries, fault, ledger, records, head } = found;
  return (
    <>
      <p className={ok ? "verify-word clear" : "verify-word stop"}>
        <VerdictShape verdict={ok ? "clear" : "stop"} />
        {ok ? t.whole : t.broken}
      </p>
      <ul>
        <li>{fault === null ? t.entries(number(entries)) : t.fault(fault.sequence, fault.what)}</li>
        <li>
          {ledger.differences === 0
            ? t.ledgerWhole(number(ledger.balances))
            : t.ledgerBroken(ledger.differences)}
        </li>
        <li>
          {records.faults === 0
            ? t.recordsWhole(number(records.signed))
            : t.recordsBroken(records.faults)}
        </li>
      </ul>
      {head === null ? null : (
        <p className="verify-head">
          {t.head}: <span className="code">{head}</span>
          <span className="hint">{t.headHint}</span>
        </p>
      )}
    </>
  );
}
