import type { ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import "./versions.css";

/** All versions of a record, each with why it is there; nothing where there is but one. */
export function Versions({ record }: { record: AnswerOf<"getRecord"> }): ReactNode {
  const { amend: t, records } = useTexts();
  const { dateTime } = useFormats();
  if (record.versions.length < 2) return null;
  return (
    <section className="panel">
      <div className="panel-head">
        <h2>{t.versions}</h2>
        <LinkButton to={paths.compareRecord(record.id)}>{t.compare}</LinkButton>
      </div>
      <ul className="version-list">
        {record.versions.map(({ id, version, amends, reason, signed }) => (
          <li key={id}>
            <span>
              <strong>{t.versionLine(version)}</strong> ·{" "}
              {amends === null ? t.first : `${t.amends[amends]}: ${reason ?? ""}`}
              {signed === null
                ? ""
                : ` · ${records.record.signedBy(signed.by, dateTime(signed.at))}`}
            </span>
            {id === record.id ? (
              <span>{t.thisOne}</span>
            ) : (
              <LinkButton
                to={paths.record(id)}
              >{`${t.open}: ${t.versionLine(version)}`}</LinkButton>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
