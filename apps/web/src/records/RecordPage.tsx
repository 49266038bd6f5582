import type { ReactNode } from "react";
import { describeTooth } from "#domain";
import { getMessages, sayTooth } from "#texts";
import type { RecordView } from "#contracts/records";
import { useRead } from "../api/queries.ts";
import { serverNowMs } from "../api/server-clock.ts";
import { paths } from "../paths.ts";
import { useHasRole, useSignedIn } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { FindingNote } from "../ui/FindingNote.tsx";
import { Page } from "../ui/Page.tsx";
import { Papers } from "./Papers.tsx";
import { QueryView } from "../ui/States.tsx";
import { Timeline } from "../ui/Timeline.tsx";
import { VerdictShape, VerdictWord } from "../ui/Verdict.tsx";
import { LinkedRecords } from "./LinkedRecords.tsx";
import { RecordSteps } from "./RecordSteps.tsx";
import { Versions } from "./Versions.tsx";
import { useRecordEvents } from "./useRecordEvents.ts";
import "./records.css";
import { showTooth } from "../texts/tooth-notation.ts";

/** One record: its steps with lots, the check it began with, its signature; made to be printed. */
export default function RecordPage({ recordId }: { recordId: string }): ReactNode {
  const query = useRead("getRecord", { params: { recordId } });
  return <QueryView query={query}>{(record) => <RecordSheet record={record} />}</QueryView>;
}

function RecordSheet({ record }: { record: RecordView }): ReactNode {
  const t = useTexts();
  const { record: texts, visits } = t.records;
  const { language, dateTime } = useFormats();
  const events = useRecordEvents(record);
  const isDentist = useHasRole("dentist");
  const { tooth, chartNumber, technique, visit, startedAt, trayId } = record;
  const { surfaces, restoration, mode } = record;
  const described = describeTooth(tooth);
  const title = texts.title(showTooth(tooth), chartNumber);
  const lead = [
    described === null ? "" : sayTooth(language, described),
    visits[visit],
    texts.techniqueVersion(technique.name, technique.version),
    surfaces,
    restoration === null ? "" : t.tray.plan.restorations[restoration],
    mode === null ? "" : t.chairside.modes[mode],
    dateTime(startedAt),
  ];
  return (
    <Page
      className="record-sheet"
      title={title}
      lead={lead.filter((part) => part !== "").join(" · ")}
      actions={
        <>
          <LinkButton to={paths.records({ chart: chartNumber })}>{texts.toPatient}</LinkButton>
          {record.state === "signed" && isDentist ? (
            <LinkButton to={paths.amendRecord(record.id)}>{t.amend.button}</LinkButton>
          ) : null}
          <Papers recordId={record.id} isSigned={record.state !== "draft"} />
          <Button onClick={() => window.print()}>{t.common.print}</Button>
          {record.state === "draft" ? (
            <LinkButton kind="main" to={paths.chairside(trayId)}>
              {texts.goOn}
            </LinkButton>
          ) : null}
        </>
      }
    >
      <PrintHead />
      {record.toldAt === null ? null : (
        <p className="hint">{t.chairside.lateMark(dateTime(record.toldAt))}</p>
      )}
      <Standing record={record} />
      <div className="record-sides">
        <section className="panel">
          <h2>{texts.steps}</h2>
          <RecordSteps record={record} />
        </section>
        <div className="record-side">
          <Signature record={record} />
          <Versions record={record} />
          <LinkedRecords record={record} />
          <StartCheck record={record} />
        </div>
      </div>
      <section className="panel">
        <h2>{texts.timeline}</h2>
        <Timeline label={texts.timeline} events={events} />
      </section>
    </Page>
  );
}

/** Stands on paper only: whose record it is and when it was printed. */
function PrintHead(): ReactNode {
  const { print } = useTexts().records.record;
  const { practice } = useSignedIn();
  const { dateTime } = useFormats();
  return (
    <p className="print-head">
      <span>{practice.name}</span>
      <span>{print.printed(dateTime(new Date(serverNowMs()).toISOString()))}</span>
    </p>
  );
}

function Standing({ record }: { record: RecordView }): ReactNode {
  const t = useTexts();
  const { record: texts } = t.records;
  if (record.state === "signed") return null;
  const newest = record.versions.at(-1)?.id ?? record.id;
  return (
    <div className="record-standing">
      <VerdictShape verdict="caution" />
      <p>{record.state === "draft" ? texts.draft : texts.superseded}</p>
      {record.state === "draft" ? null : (
        <LinkButton to={paths.record(newest)}>{t.amend.newest}</LinkButton>
      )}
    </div>
  );
}

function Signature({ record }: { record: RecordView }): ReactNode {
  const { records, chairside } = useTexts();
  const { record: texts } = records;
  const { meaning } = chairside;
  const { language, dateTime } = useFormats();
  const { signed, version, state } = record;
  return (
    <section className="panel record-signature">
      <h2>{texts.signature}</h2>
      <p className="hint">
        {texts.version(version)} · {getMessages(language).recordStates[state]}
      </p>
      {signed === null ? (
        <p>{texts.notSigned}</p>
      ) : (
        <>
          <p className="record-signed">
            <VerdictShape verdict="clear" />
            {texts.signedBy(signed.by, dateTime(signed.at))}
          </p>
          <p>{meaning}</p>
          <p className="hint">{texts.meaning}</p>
          <p className="record-hash">
            <span className="unseen">{texts.hash} </span>
            {(signed.hash.match(/.{1,8}/g) ?? []).map((group, place) => (
              // The same group may come twice; its place tells it apart.
              <span key={`${place} ${group}`}>{group}</span>
            ))}
          </p>
        </>
      )}
    </section>
  );
}

function StartCheck({ record }: { record: RecordView }): ReactNode {
  const { record: texts } = useTexts().records;
  const { dateTime } = useFormats();
  const { verdict, findings, at } = record.startCheck;
  return (
    <section className="panel">
      <div className="panel-head">
        <h2>{texts.startCheck}</h2>
        <VerdictWord verdict={verdict} />
      </div>
      <p className="hint">{texts.checkedAt(dateTime(at))}</p>
      {findings.length === 0 ? <p>{texts.noFindings}</p> : null}
      {findings.map((finding) => (
        <FindingNote
          key={`${finding.code} ${finding.subject.itemId ?? finding.subject.stepKey ?? ""}`}
          finding={finding}
        />
      ))}
    </section>
  );
}
