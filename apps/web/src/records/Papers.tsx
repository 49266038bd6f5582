import type { ReactNode } from "react";
import { addressOf } from "../api/client.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";

/** The record for an archive, for the patient and for other systems, in the screen's language. */
export function Papers({ recordId, isSigned }: { recordId: string; isSigned: boolean }): ReactNode {
  const { record: texts } = useTexts().records;
  const { language } = useLanguage();
  const told = { params: { recordId }, query: { language } };
  return (
    <>
      <a
        className="button plain"
        href={addressOf("getRecordDocument", told)}
        target="_blank"
        rel="noreferrer"
      >
        {texts.asPdf}
      </a>
      <a
        className="button plain"
        href={addressOf("getMaterialCard", told)}
        target="_blank"
        rel="noreferrer"
      >
        {texts.card}
      </a>
      {isSigned ? (
        <a className="button plain" href={addressOf("getRecordFhir", told)} download>
          {texts.asFhir}
        </a>
      ) : null}
    </>
  );
}
