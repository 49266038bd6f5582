import { useState, type ReactNode } from "react";
import { sayVerdict } from "#texts";
import { PrintButton } from "../labels/PrintButton.tsx";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { ClearDialog } from "./ClearDialog.tsx";
import { countFindings, type Tray } from "./columns.ts";

interface TrayStripProps {
  tray: Tray;
  /** Writes for this tray that the server has not yet confirmed. */
  waiting: number;
  /** The last answer is older than it should be. */
  isStale: boolean;
}

/** The verdict along the foot of the tray; a verdict that is not of now is never shown as one. */
export function TrayStrip({ tray, waiting, isStale }: TrayStripProps): ReactNode {
  const t = useTexts();
  const { language, time } = useFormats();
  const mayClear = useHasRole("assistant", "dentist");
  const [asks, ask] = useState(false);
  const { verdict, findings, at } = tray.check;
  const counts = countFindings(findings);
  const missing = findings.filter(({ code }) => code === "missing").length;
  const isNow = waiting === 0 && !isStale;
  const facts = [
    waiting > 0 ? t.tray.waiting(waiting) : "",
    missing > 0 ? t.tray.stillMissing(missing) : t.tray.allSet,
    counts.stop > missing ? t.tray.stops(counts.stop - missing) : "",
    counts.caution > 0 ? t.tray.cautions(counts.caution) : "",
    isNow ? t.tray.verdictAt(time(at)) : t.tray.verdictOld(time(at)),
  ];
  return (
    <>
      <section className={`strip ${isNow ? verdict : "old"}`} aria-live="polite">
        <p className="strip-word">
          <VerdictShape verdict={verdict} />
          {sayVerdict(language, verdict)}
        </p>
        <p className="strip-facts">{facts.filter((fact) => fact !== "").join(" · ")}</p>
        <div className="actions">
          <PrintButton subjects={[{ kind: "tray", id: tray.id }]} size="place">
            {t.labels.print.ofTray}
          </PrintButton>
          {mayClear && tray.state !== "cleared" ? (
            <Button onClick={() => ask(true)}>{t.tray.clear}</Button>
          ) : null}
          {tray.state === "cleared" ? null : (
            <LinkButton to={paths.chairside(tray.id)} kind="main">
              {t.tray.toChairside}
            </LinkButton>
          )}
        </div>
      </section>
      {asks ? <ClearDialog tray={tray} onClose={() => ask(false)} /> : null}
    </>
  );
}
