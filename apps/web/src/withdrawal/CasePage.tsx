import { useState, type ReactNode } from "react";
import { withdrawalStates as states } from "#domain";
import { getMessages } from "#texts";
import type { WithdrawalView } from "#contracts/withdrawals";
import { useRead } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { saveCsv } from "../ui/csv.ts";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { useScopeWords } from "./CaseList.tsx";
import { CloseDialog } from "./CloseDialog.tsx";
import { LotTrace } from "./LotTrace.tsx";
import { NoticeClock } from "./NoticeClock.tsx";
import { SegregateDialog } from "./SegregateDialog.tsx";
import { countPatients, countTeeth, listAffected, sumBalances } from "./sums.ts";
import { useToothColumns } from "./useToothColumns.tsx";
import "./withdrawal.css";
import "./withdrawal-print.css";

/** A case: the clock since the notice, what is where, what is left to do, and every lot's trace. */
export default function CasePage({ withdrawalId }: { withdrawalId: string }): ReactNode {
  const query = useRead("getWithdrawal", { params: { withdrawalId } }, { everyMs: 30_000 });
  return <QueryView query={query}>{(found) => <CaseView one={found} />}</QueryView>;
}

function CaseView({ one }: { one: WithdrawalView }): ReactNode {
  const t = useTexts();
  const { case: texts, answer } = t.withdrawal;
  const { dateTime } = useFormats();
  const columns = useToothColumns(true);
  const sayScope = useScopeWords();
  const affected = listAffected(one.trace);
  return (
    <Page
      title={one.reference}
      lead={texts.noticeBy(one.receivedBy, dateTime(one.receivedAt))}
      actions={
        <>
          {affected.length === 0 ? null : (
            <Button onClick={() => saveCsv(`teeth-${one.reference}`, columns, affected)}>
              {answer.saveTeeth}
            </Button>
          )}
          <Button onClick={() => window.print()}>{t.common.print}</Button>
        </>
      }
    >
      <section className="panel case-head">
        <StateLine state={one.state} />
        <NoticeClock from={one.receivedAt} to={one.closedAt} />
        <div>
          <p>
            {texts.covers}: <strong>{sayScope(one.scope)}</strong>
          </p>
          {one.note === "" ? null : <p className="case-note">{one.note}</p>}
        </div>
        <Figures one={one} />
        {one.state === "closed" ? <Closed one={one} /> : <CaseActs one={one} />}
      </section>
      {one.trace.length === 0 ? <p>{texts.noLots}</p> : null}
      {one.trace.map((lot) => (
        <LotTrace key={lot.lotId} lot={lot} />
      ))}
    </Page>
  );
}

/** Where a case stands. Which stations it passed is not told, so none is claimed. */
function StateLine({ state }: { state: WithdrawalView["state"] }): ReactNode {
  const { language } = useFormats();
  const names = getMessages(language).withdrawalStates;
  return (
    <ol className="case-line">
      {states.map((one) => (
        <li key={one} aria-current={one === state ? "step" : undefined}>
          {names[one]}
        </li>
      ))}
    </ol>
  );
}

function Figures({ one }: { one: WithdrawalView }): ReactNode {
  const { case: texts, teeth: teethTexts } = useTexts().withdrawal;
  const balance = sumBalances(one.trace);
  const teeth = one.trace.flatMap((lot) => lot.teeth);
  const counts = countTeeth(teeth);
  const figures = [
    { name: texts.stillOut, count: balance.onHand, more: "" },
    { name: texts.setApart, count: balance.quarantined, more: "" },
    {
      name: texts.teeth,
      count: counts.certain + counts.inferred + counts.possible,
      more: teethTexts.sums(counts),
    },
    { name: texts.patients, count: countPatients(teeth), more: "" },
    { name: texts.unaccounted, count: balance.unaccounted, more: "" },
  ];
  return (
    <ul className="case-figures">
      {figures.map(({ name, count, more }) => (
        <li key={name}>
          <strong>{count}</strong> {name}
          {more === "" ? null : <small>{more}</small>}
        </li>
      ))}
    </ul>
  );
}

function Closed({ one }: { one: WithdrawalView }): ReactNode {
  const { case: texts } = useTexts().withdrawal;
  const { dateTime } = useFormats();
  return (
    <div className="case-closed">
      <h2>{texts.closed(one.closedAt === null ? "" : dateTime(one.closedAt))}</h2>
      <p>{one.summary}</p>
    </div>
  );
}

function CaseActs({ one }: { one: WithdrawalView }): ReactNode {
  const { case: texts } = useTexts().withdrawal;
  const mayClose = useHasRole("office", "owner");
  const [acting, act] = useState<"segregate" | "close" | null>(null);
  const out = sumBalances(one.trace).onHand;
  return (
    <div className="actions">
      {out === 0 ? (
        <p>{texts.nothingOut}</p>
      ) : (
        <Button kind="main" onClick={() => act("segregate")}>
          {texts.segregate(out)}
        </Button>
      )}
      {mayClose ? (
        <Button kind={out === 0 ? "main" : "plain"} onClick={() => act("close")}>
          {texts.close}
        </Button>
      ) : (
        <p className="hint">{texts.officeCloses}</p>
      )}
      {acting === "segregate" ? (
        <SegregateDialog one={one} count={out} onClose={() => act(null)} />
      ) : null}
      {acting === "close" ? <CloseDialog one={one} onClose={() => act(null)} /> : null}
    </div>
  );
}
