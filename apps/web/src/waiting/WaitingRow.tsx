import type { ReactNode } from "react";
import { Link } from "wouter";
import type { WaitingSeal } from "#contracts/waiting";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { NeedsList } from "./NeedsList.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

interface WaitingRowProps {
  seal: WaitingSeal;
  onLeave: () => void;
}

/** One sealed tooth: how long it waits, under what, what it needs, and the one next action. */
export function WaitingRow({ seal, onLeave }: WaitingRowProps): ReactNode {
  const { waiting: t } = useTexts();
  const { chartNumber, tooth, sealId, days, overdue, needs, off } = seal;
  return (
    <li className={overdue ? "waiting-row overdue" : "waiting-row"}>
      <p className="waiting-days">
        {overdue ? <VerdictShape verdict="caution" /> : null}
        <span>{t.days(days)}</span>
        {overdue ? <span className="waiting-word">{t.overdue}</span> : null}
      </p>
      <div className="waiting-what">
        <Link to={paths.record(sealId)} className="name-link whole">
          {t.tooth(showTooth(tooth), chartNumber)}
        </Link>
        <Facts seal={seal} />
        <details>
          <summary>{t.needs.of(needs.length)}</summary>
          <p className="hint">{t.needs.ifuFirst}</p>
          <NeedsList needs={needs} />
        </details>
      </div>
      {off === null ? <Acts seal={seal} onLeave={onLeave} /> : <PutBack seal={seal} />}
    </li>
  );
}

function Facts({ seal }: { seal: WaitingSeal }): ReactNode {
  const { waiting: t } = useTexts();
  const { date, dateTime } = useFormats();
  const { sealedOn, restoration, provisional, cement, plannedOn, off } = seal;
  const parts = [
    t.sealed(date(sealedOn)),
    restoration === null ? "" : t.restorations[restoration],
    provisional === "none" ? "" : t.provisionals[provisional],
    cement === null ? t.noCement : t.cement(cement.productName, cement.lot),
    plannedOn === null ? "" : t.planned(date(plannedOn)),
  ];
  return (
    <>
      <p className="hint">{parts.filter((part) => part !== "").join(" · ")}</p>
      {off === null ? null : (
        <p>
          {t.off.said(t.off.reasons[off.reason], off.by, dateTime(off.at))}
          {off.note === "" ? "" : `: ${off.note}`}
        </p>
      )}
    </>
  );
}

function Acts({ seal, onLeave }: WaitingRowProps): ReactNode {
  const { waiting: t } = useTexts();
  const { dateTime } = useFormats();
  const techniques = useRead("listTechniques", {}, { staleMs: 300_000 });
  const { chartNumber: chart, tooth, sealId, visit } = seal;
  const bonding = techniques.data?.techniques.filter((one) => one.visit === "bonding");
  // The practice's own before a starter.
  const technique = (bonding?.find(({ starter }) => !starter) ?? bonding?.[0])?.id;
  return (
    <div className="waiting-acts">
      {visit === null ? (
        <LinkButton
          kind={seal.overdue ? "main" : "plain"}
          to={paths.planTray({ chart, tooth, technique, seal: sealId })}
        >
          {t.plan}
        </LinkButton>
      ) : (
        <LinkButton to={paths.tray(visit.trayId)}>
          {t.visit(dateTime(visit.appointmentAt))}
        </LinkButton>
      )}
      {visit === null ? null : <p className="hint">{t.states[visit.state]}</p>}
      <Button kind="quiet" onClick={onLeave}>
        {t.off.button}
      </Button>
    </div>
  );
}

function PutBack({ seal }: { seal: WaitingSeal }): ReactNode {
  const { waiting: t } = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const change = useWrite("changeWaiting", () => {
    refresh("listWaiting", "getToday", "getTraySeals");
    announce({ text: t.off.backDone });
  });
  const given = { params: { sealId: seal.sealId }, body: { waits: true as const } };
  return (
    <div className="waiting-acts">
      <ProblemNote error={change.error} />
      <Button busy={change.isPending} onClick={() => change.mutate(given)}>
        {t.off.back}
      </Button>
    </div>
  );
}
