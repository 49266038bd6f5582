import type { ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { getMessages, sayBecause, sayFinding } from "#texts";
import { useHasRole } from "../session/session.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";
import { VerdictShape } from "./Verdict.tsx";

export type FindingView = AnswerOf<"getTray">["check"]["findings"][number];

interface FindingNoteProps {
  finding: FindingView;
  /** Shown where the person may pass a stop; without it nothing can be passed here. */
  onPass?: (finding: FindingView) => void;
  /** What to do before what is wrong, where there is little room. */
  remedyFirst?: boolean;
}

/** A finding: its weight by shape and word, what is wrong, what to do, and why. */
export function FindingNote({ finding, onPass, remedyFirst = false }: FindingNoteProps): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  const mayPass = useHasRole("dentist");
  const { level, overridden, because } = finding;
  const { title, sentence, remedy } = sayFinding(language, finding);
  const canPass = level === "stop" && overridden === null && onPass !== undefined;
  return (
    <div className={`finding ${overridden === null ? level : "passed"}`}>
      <p className="finding-title">
        {level === "info" ? <span className="finding-dot" /> : <VerdictShape verdict={level} />}
        <span className="unseen">{getMessages(language).levels[level]}: </span>
        {title}
      </p>
      {remedyFirst ? null : <p>{sentence}</p>}
      {remedy === "" ? null : <p className="finding-remedy">{remedy}</p>}
      {remedyFirst ? <p>{sentence}</p> : null}
      {overridden === null ? null : (
        <p className="finding-passed">
          {t.finding.passed(overridden.by)}: {overridden.reason}
        </p>
      )}
      {because.length === 0 ? null : (
        <details>
          <summary>{t.finding.because}</summary>
          <ul>
            {because.map((one) => (
              <li key={`${one.what} ${one.from} ${one.value}`}>{sayBecause(language, one)}</li>
            ))}
          </ul>
        </details>
      )}
      {canPass && mayPass ? (
        <Button className="small" onClick={() => onPass(finding)}>
          {t.finding.pass}
        </Button>
      ) : null}
      {canPass && !mayPass ? <p className="hint">{t.finding.dentistOnly}</p> : null}
    </div>
  );
}

/** What an override is kept under: the item a finding is about, else its step. */
export const subjectOf = ({ subject }: FindingView): string =>
  subject.itemId ?? subject.stepKey ?? "tray";
