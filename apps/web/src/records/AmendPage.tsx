import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { amendments, type Amendment } from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { ProofForm, type Proof } from "../sign-in/ProofForm.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Choice, TextArea } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { Additions } from "./Additions.tsx";
import type { Addition } from "./additions.ts";
import { OtherSeal } from "./OtherSeal.tsx";
import { WhatWasWrong, type Wrong } from "./WhatWasWrong.tsx";
import "./records.css";
import "./versions.css";
import { showTooth } from "../texts/tooth-notation.ts";

type RecordView = AnswerOf<"getRecord">;

/** A later version of a signed record: why, what was wrong, what is added, and the signature. */
export default function AmendPage({ recordId }: { recordId: string }): ReactNode {
  const query = useRead("getRecord", { params: { recordId } });
  return <QueryView query={query}>{(record) => <Amend record={record} />}</QueryView>;
}

const nothingWrong: Wrong = { events: [], materials: [] };

function Amend({ record }: { record: RecordView }): ReactNode {
  const { amend: t } = useTexts();
  const isDentist = useHasRole("dentist");
  const [amends, setAmends] = useState<Amendment>("addition");
  const [reason, setReason] = useState("");
  const [wrong, setWrong] = useState<Wrong>(nothingWrong);
  const [sealId, setSealId] = useState<string | null>();
  const [added, setAdded] = useState<readonly Addition[]>([]);
  const leaveOut = amends === "correction" ? wrong : nothingWrong;
  const isOtherSeal = amends === "correction" && sealId !== undefined;
  const isChange = added.length + leaveOut.events.length + leaveOut.materials.length > 0;
  const isWhole = reason.trim().length >= 5 && (isChange || isOtherSeal);
  const body = {
    amends,
    reason,
    leaveOut,
    add: added.map(({ entry }) => entry),
    ...(isOtherSeal ? { sealId } : {}),
  };
  return (
    <Page title={t.title(showTooth(record.tooth))} lead={t.lead}>
      <div className="amend">
        <div className="form">
          <Choice
            label={t.kind}
            options={amendments.map((value) => ({ value, label: t.kinds[value] }))}
            value={amends}
            onChoose={setAmends}
          />
          <TextArea
            label={t.reason}
            hint={t.reasonHint}
            value={reason}
            maxLength={2000}
            onChange={({ target }) => setReason(target.value)}
          />
          {amends === "correction" ? (
            <WhatWasWrong record={record} wrong={wrong} onChange={setWrong} />
          ) : null}
          {amends === "correction" && record.visit === "bonding" ? (
            <OtherSeal record={record} sealId={sealId} onChoose={setSealId} />
          ) : null}
          <Additions record={record} added={added} onChange={setAdded} />
        </div>
        <section className="panel form" aria-label={t.sign}>
          <h2>{t.sign}</h2>
          {isDentist ? null : <p>{t.dentistAmends}</p>}
          {isWhole ? null : <p className="hint">{t.needs}</p>}
          {isDentist && isWhole ? <Signature record={record} body={body} /> : null}
        </section>
      </div>
    </Page>
  );
}

type Unsigned = Omit<BodyOf<"amendRecord">, "password" | "pin">;

function Signature({ record, body }: { record: RecordView; body: Unsigned }): ReactNode {
  const { amend: t } = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const amend = useWrite("amendRecord", ({ id, version }) => {
    refresh("getRecord", "listRecords", "getTray", "getToday", "getTraySeals", "listWaiting");
    announce({ text: t.saved(version) });
    navigate(paths.record(id));
  });
  const prove = (proof: Proof) =>
    amend.mutate({ params: { recordId: record.id }, body: { ...body, ...proof } });
  return <ProofForm sign={t.sign} busy={amend.isPending} error={amend.error} onProve={prove} />;
}
