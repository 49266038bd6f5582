import type { ReactNode } from "react";
import { addressOf } from "../api/client.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";

/** The record for an archive and the card for the patient, in the language on the screen. */
export function Papers({ recordId }: { recordId: string }): ReactNode {
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
    </>
  );
}
