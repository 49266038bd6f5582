import { useQueryClient } from "@tanstack/react-query";
import { useState, type ReactNode } from "react";
import { keyOf, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole, useSignedIn } from "../session/session.ts";
import { Cautions } from "../shell/About.tsx";
import { PinPad } from "../sign-in/PinPad.tsx";
import { useRecordEvents } from "../records/useRecordEvents.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { Timeline } from "../ui/Timeline.tsx";
import { listLacking, listUnmeasured, type RecordView } from "./steps.ts";
import { ThicknessDialog } from "./ThicknessDialog.tsx";
import type { RecordStep } from "./timer.ts";
import "../sign-in/door.css";

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
  const { person } = useSignedIn();
  const queries = useQueryClient();
  const refresh = useRefresh();
  const [byPin, setByPin] = useState(person.hasPin);
  const [password, setPassword] = useState("");
  const params = { recordId: record.id };
  const sign = useWrite("signRecord", (signed) => {
    queries.setQueryData(keyOf("getRecord", { params }), signed);
    refresh("getTray", "getToday", "listRecords");
  });
  return (
    <>
      {byPin ? (
        <PinPad
          label={t.chairside.signWithPin}
          button={t.chairside.signTitle}
          busy={sign.isPending}
          onEnter={(pin) => sign.mutate({ params, body: { pin } })}
        />
      ) : (
        <form
          className="form"
          onSubmit={(event) => {
            event.preventDefault();
            sign.mutate({ params, body: { password } });
          }}
        >
          <TextField
            label={t.chairside.signWithPassword}
            type="password"
            autoComplete="current-password"
            value={password}
            required
            onChange={(event) => setPassword(event.target.value)}
          />
          <Button kind="main" type="submit" className="big" busy={sign.isPending}>
            {t.chairside.sign}
          </Button>
        </form>
      )}
      <ProblemNote error={sign.error} />
      {person.hasPin ? (
        <Button kind="quiet" onClick={() => setByPin(!byPin)}>
          {byPin ? t.chairside.usePassword : t.chairside.usePin}
        </Button>
      ) : null}
    </>
  );
}
