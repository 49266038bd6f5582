import type { ReactNode } from "react";
import type { RecordView } from "#contracts/records";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";

/** From a bonding to the seal it builds on, and from a seal to its bonding. */
export function LinkedRecords({ record }: { record: RecordView }): ReactNode {
  const { linked: t } = useTexts().waiting;
  const { date, civilDate } = useFormats();
  const { visit, seal, bonding, chartNumber: chart, state } = record;
  const isBonding = visit === "bonding";
  const other = isBonding ? seal : bonding;
  if (!isBonding && state === "draft") return null;
  const say = isBonding ? t.seal : t.bonding;
  return (
    <section className="panel">
      <h2>{t.title}</h2>
      {other === null ? (
        <p>{isBonding ? t.noSeal : t.waits}</p>
      ) : (
        <p>{say(date(civilDate(other.signedAt)), other.days)}</p>
      )}
      <div className="actions">
        {other === null ? null : (
          <LinkButton to={paths.record(other.id)}>{isBonding ? t.toSeal : t.toBonding}</LinkButton>
        )}
        {other === null && !isBonding ? (
          <LinkButton to={paths.waiting({ chart })}>{t.toWaiting}</LinkButton>
        ) : null}
      </div>
    </section>
  );
}
