import type { ReactNode } from "react";
import { sayVerdict } from "#texts";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

/** Trays whose check changed within a day although nobody touched them, and why. */
export function VerdictChanges(): ReactNode {
  const { live: t } = useTexts();
  const { language, dateTime } = useFormats();
  const { data } = useRead("listVerdictChanges", {}, { everyMs: 60_000 });
  if (data === undefined || data.changes.length === 0) return null;
  return (
    <section className="needs">
      <h2>{t.title}</h2>
      <ul>
        {data.changes.map(({ id, trayId, chartNumber, teeth, before, after, cause, at }) => (
          <li key={id} className={`need ${after === "clear" ? "plain" : after}`}>
            <VerdictShape verdict={after} />
            <div>
              <p className="need-title">{t.line(teeth.map(showTooth).join(", "), chartNumber)}</p>
              <p className="hint">
                {t.from(sayVerdict(language, before), sayVerdict(language, after))} ·{" "}
                {t.causes[cause] ?? cause} · {dateTime(at)}
              </p>
            </div>
            <LinkButton to={paths.tray(trayId)}>{t.look}</LinkButton>
          </li>
        ))}
      </ul>
    </section>
  );
}
