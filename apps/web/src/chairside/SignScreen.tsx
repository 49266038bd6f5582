import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { keyOf, showAnswer, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { Cautions } from "../shell/About.tsx";
import { ProofForm } from "../sign-in/ProofForm.tsx";
import { useRecordEvents } from "../records/useRecordEvents.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Timeline } from "../ui/Timeline.tsx";
import { listLacking, listUnmeasured, type RecordView } from "./steps.ts";
import { ThicknessDialog } from "./ThicknessDialog.tsx";
import type { RecordStep } from "./timer.ts";

interface SignScreenProps {
  record: RecordView;
  /** What of this record is not yet confirmed, or refused. */
  unsettled: number;
  onStep: (stepKey: string) => void;
}

/** All steps worked: what happened, what is lacking, the signature. */
export function SignScreen({ record, unsettled, onStep }: SignScreenProps): ReactNode {
  const t = useTexts();
  const isDentist = useHasRole("dentist");
  const [measured, measure] = useState<RecordStep | null>(null);
  const events = useRecordEvents(record);
  const lacking = listLacking(record);
  return (
    <section className="sign-screen" aria-label={t.chairside.signTitle}>
      <div>
        <h2>{t.chairside.timeline}</h2>
        <Timeline label={t.chairside.timeline} events={events} />
      </div>
      <div className="sign-side">
        <h2>{t.chairside.signTitle}</h2>
        <p>{t.chairside.signLead}</p>
        {lacking.length === 0 ? null : (
          <div className="problem">
            <p>{t.chairside.notAllDone}</p>
            {lacking.map((step) => (
              <Button key={step.key} onClick={() => onStep(step.key)}>
                {t.chairside.backToStep(step.name)}
              </Button>
            ))}
          </div>
        )}
        {listUnmeasured(record).map((step) => (
          <Button key={step.key} onClick={() => measure(step)}>
            {t.chairside.thicknessTitle(step.name)}
          </Button>
        ))}
        {unsettled > 0 ? <p role="status">{t.chairside.waitingToSend}</p> : null}
        {isDentist ? null : <p>{t.chairside.dentistSigns}</p>}
        {isDentist && lacking.length === 0 && unsettled === 0 ? (
          <Signature record={record} />
        ) : null}
        <details>
          <summary className="link">{t.shell.aboutLink}</summary>
          <Cautions />
        </details>
      </div>
      {measured === null ? null : (
        <ThicknessDialog
          {...{ record, step: measured, recordIds: [record.id] }}
          onClose={() => measure(null)}
        />
      )}
    </section>
  );
}

function Signature({ record }: { record: RecordView }): ReactNode {
  const t = useTexts();
  const queries = useQueryClient();
  const refresh = useRefresh();
  const params = { recordId: record.id };
  const sign = useWrite("signRecord", (signed) => {
    showAnswer(queries, keyOf("getRecord", { params }), signed);
    refresh("getTray", "getToday", "listRecords");
  });
  return (
    <ProofForm
      sign={t.chairside.sign}
      busy={sign.isPending}
      error={sign.error}
      onProve={(proof) => sign.mutate({ params, body: proof })}
    />
  );
}
