import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { useSearchParams } from "wouter";
import { sayVerdict } from "#texts";
import { keyOf, showAnswer, useRefresh, useWrite } from "../api/queries.ts";
import { useWaitingFor } from "../outbox/OutboxProvider.tsx";
import { serverNowMs } from "../api/server-clock.ts";
import { paths } from "../paths.ts";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { nameTeeth, type Tray } from "../tray/columns.ts";
import { OverrideDialog } from "../tray/OverrideDialog.tsx";
import { useScanIntoTray } from "../tray/useTrayWork.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import type { FindingView } from "../ui/FindingNote.tsx";
import { SealQuestions } from "../waiting/SealQuestions.tsx";
import { SurfaceNeeds } from "../waiting/SurfaceNeeds.tsx";
import { useSealChoice, type SealChoice } from "../waiting/useSealChoice.ts";
import { LateDialog } from "./LateDialog.tsx";
import { FindingList } from "./FindingList.tsx";
import { Page } from "../ui/Page.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";

interface VerdictScreenProps {
  tray: Tray;
  query: { error: unknown; isFetching: boolean; refetch: () => unknown };
  isAwake: boolean;
}

/** One of three words across the screen, then why, what to do, and the tap that starts priming. */
export function VerdictScreen({ tray, query, isAwake }: VerdictScreenProps): ReactNode {
  const t = useTexts();
  const { language, time } = useFormats();
  const [passing, pass] = useState<FindingView | null>(null);
  const choice = useSealChoice(tray);
  const isOpen = tray.state !== "cleared" && tray.state !== "in-use";
  const scan = useScanIntoTray(tray);
  useScanTarget(isOpen ? scan : null, t.tray.scanTarget(nameTeeth(tray)));
  const { verdict, findings, at, mayStart } = tray.check;
  const isPassed = verdict === "stop" && mayStart;
  const word = sayVerdict(language, verdict);
  const weighty = findings.filter(({ level }) => level !== "info");
  const notes = findings.filter(({ level }) => level === "info");
  const { technique, location, chartNumber } = tray;
  const lead = `${technique.name} · ${location.name} · ${t.common.chart(chartNumber)}`;
  return (
    <Page
      full
      className="chair"
      title={t.chairside.tooth(nameTeeth(tray))}
      tabTitle={word}
      lead={lead}
    >
      <section className={`verdict-field ${verdict}`} aria-live="assertive">
        <p className="verdict-giant">
          <VerdictShape verdict={verdict} />
          <span>{word}</span>
        </p>
        <p className="verdict-hint">
          {isPassed ? t.chairside.stopPassed : t.verdictHints[verdict]} ·{" "}
          {query.isFetching ? t.chairside.checking : t.chairside.checkedAt(time(at))}
        </p>
      </section>
      <div>
        <FindingList findings={weighty} onPass={pass} />
        {notes.length === 0 ? null : (
          <details className="chair-notes">
            <summary>{t.finding.notes(notes.length)}</summary>
            <FindingList findings={notes} onPass={pass} />
          </details>
        )}
      </div>
      <SealQuestions choice={choice} />
      <SurfaceNeeds tray={tray} />
      <StartBar {...{ tray, query, isAwake, choice }} />
      {passing === null ? null : (
        <OverrideDialog trayId={tray.id} finding={passing} onClose={() => pass(null)} />
      )}
    </Page>
  );
}

interface StartBarProps extends VerdictScreenProps {
  choice: SealChoice;
}

function StartBar({ tray, query, isAwake, choice }: StartBarProps): ReactNode {
  const t = useTexts();
  const queries = useQueryClient();
  const refresh = useRefresh();
  const isDentist = useHasRole("dentist");
  const waiting = useWaitingFor(tray.id).length;
  const start = useWrite("startRecord", ({ records }) => {
    for (const record of records) {
      showAnswer(queries, keyOf("getRecord", { params: { recordId: record.id } }), record);
    }
    refresh("getTray", "getToday", "listTrays", "getTraySeals");
  });
  const { verdict, mayStart } = tray.check;
  const isStale = query.error !== null;
  const words = {
    clear: t.chairside.start,
    caution: t.chairside.startCaution,
    stop: t.chairside.startOverridden,
  };
  return (
    <div className="chair-bar">
      <div>
        {waiting > 0 ? <p role="status">{t.chairside.unsent}</p> : null}
        {isStale ? <p role="alert">{t.chairside.stale}</p> : null}
        {isDentist ? null : <p>{t.chairside.dentistStarts}</p>}
        {choice.isOpen && choice.teeth.length > 0 ? <p>{t.waiting.choice.first}</p> : null}
        <p className="hint">{isAwake ? t.chairside.awake : t.chairside.notAwake}</p>
        <ProblemNote error={start.error} />
      </div>
      <div className="actions">
        <LinkButton to={paths.tray(tray.id)} className="big">
          {t.chairside.toTray}
        </LinkButton>
        <Button className="big" busy={query.isFetching} onClick={() => void query.refetch()}>
          {t.chairside.checkAgain}
        </Button>
        {mayStart && isDentist && tray.state !== "cleared" ? (
          <Button
            kind="main"
            className="big"
            busy={start.isPending}
            disabled={waiting > 0 || isStale || choice.isOpen}
            onClick={() =>
              start.mutate({ params: { trayId: tray.id }, body: { seals: choice.seals } })
            }
          >
            {words[verdict]}
          </Button>
        ) : null}
        {isDentist && tray.state !== "cleared" ? (
          <LateStart
            tray={tray}
            isOff={choice.isOpen}
            start={start}
            onStart={(happenedAt) =>
              start.mutate({
                params: { trayId: tray.id },
                body: { seals: choice.seals, happenedAt },
              })
            }
          />
        ) : null}
      </div>
    </div>
  );
}

interface LateStartProps {
  tray: Tray;
  isOff: boolean;
  start: { isPending: boolean; error: unknown };
  onStart: (happenedAt: string) => void;
}

/** For a visit whose time has come: what was written on paper is entered. */
function LateStart({ tray, isOff, start, onStart }: LateStartProps): ReactNode {
  const t = useTexts();
  const [search] = useSearchParams();
  const [asks, ask] = useState(search.has("late") && !isOff);
  if (Date.parse(tray.appointmentAt) > serverNowMs()) return null;
  return (
    <>
      <Button className="big" disabled={isOff} onClick={() => ask(true)}>
        {t.chairside.late}
      </Button>
      {asks ? (
        <LateDialog
          appointmentAt={tray.appointmentAt}
          busy={start.isPending}
          error={start.error}
          onStart={onStart}
          onClose={() => ask(false)}
        />
      ) : null}
    </>
  );
}
