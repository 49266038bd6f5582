import { useState, type ReactNode } from "react";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Ask } from "../ui/Dialog.tsx";
import { Page } from "../ui/Page.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import type { Technique } from "./technique-draft.ts";
import { TechniqueSteps } from "./TechniqueSteps.tsx";
import "./catalogue.css";

/** A technique: its steps, who stands for it, and its versions. */
export default function TechniquePage({ techniqueId }: { techniqueId: string }): ReactNode {
  const query = useRead("getTechnique", { params: { techniqueId } });
  return <QueryView query={query}>{(found) => <TechniqueView technique={found} />}</QueryView>;
}

function TechniqueView({ technique }: { technique: Technique }): ReactNode {
  const t = useTexts();
  const { technique: words, catalogue } = t;
  const { dateTime } = useFormats();
  const decides = useHasRole("dentist", "owner");
  const { name, visit, version, starter, retired, madeFrom, created } = technique;
  const about = [
    madeFrom === null ? "" : words.madeFrom(madeFrom.name, madeFrom.version),
    created.by === null ? "" : words.made(created.by, dateTime(created.at)),
  ].filter((word) => word !== "");
  return (
    <Page
      title={name}
      lead={[
        visit === "sealing" ? catalogue.techniques.sealing : catalogue.techniques.bonding,
        catalogue.techniques.version(version),
        starter ? catalogue.techniques.starter : catalogue.techniques.own,
      ].join(" · ")}
      actions={decides ? <TechniqueActs technique={technique} /> : null}
    >
      {retired ? <p className="hint">{words.retired}</p> : null}
      <Standing technique={technique} />
      <section className="panel">
        <TechniqueSteps steps={technique.steps} />
        {about.length === 0 ? null : <p className="hint">{about.join(" · ")}</p>}
      </section>
      {technique.versions.length < 2 ? null : (
        <section className="panel">
          <h2>{words.versions}</h2>
          <p className="hint">{words.keeps}</p>
          <div className="actions">
            {technique.versions
              .filter(({ id }) => id !== technique.id)
              .map(({ id, version: other, createdAt }) => (
                <LinkButton key={id} to={paths.technique(id)}>
                  {words.versionLine(other)} · {dateTime(createdAt)}
                </LinkButton>
              ))}
          </div>
        </section>
      )}
      {decides ? null : <p className="hint">{words.deciders}</p>}
    </Page>
  );
}

function Standing({ technique }: { technique: Technique }): ReactNode {
  const { technique: t } = useTexts();
  const { dateTime } = useFormats();
  const { confirmed, starter } = technique;
  return (
    <div className={confirmed === null ? "compared caution" : "compared clear"}>
      <VerdictShape verdict={confirmed === null ? "caution" : "clear"} />
      <div>
        <p className="compared-words">
          {confirmed === null ? t.notConfirmed : t.confirmed(confirmed.by, dateTime(confirmed.at))}
        </p>
        {starter ? <p>{t.starterNote}</p> : null}
      </div>
    </div>
  );
}

function TechniqueActs({ technique }: { technique: Technique }): ReactNode {
  const { technique: t } = useTexts();
  const isDentist = useHasRole("dentist");
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [asks, ask] = useState<"confirm" | "retire" | null>(null);
  const done = (text: string) => () => {
    refresh("getTechnique", "listTechniques");
    ask(null);
    announce({ text });
  };
  const confirm = useWrite("confirmTechnique", done(t.confirmedNow));
  const retire = useWrite("retireTechnique", done(t.retiredNow));
  const { id, starter, retired, confirmed } = technique;
  const given = { params: { techniqueId: id }, body: {} };
  return (
    <>
      <LinkButton to={paths.editTechnique(id, "copy")}>{t.copy}</LinkButton>
      {starter || retired ? null : (
        <LinkButton to={paths.editTechnique(id, "version")}>{t.edit}</LinkButton>
      )}
      {retired ? null : <Button onClick={() => ask("retire")}>{t.retire}</Button>}
      {starter || retired || confirmed !== null || !isDentist ? null : (
        <Button kind="main" onClick={() => ask("confirm")}>
          {t.confirm}
        </Button>
      )}
      <ProblemNote error={confirm.error ?? retire.error} />
      {asks === "confirm" ? (
        <Ask
          title={t.confirm}
          text={t.confirmText}
          yes={t.confirm}
          busy={confirm.isPending}
          onYes={() => confirm.mutate(given)}
          onNo={() => ask(null)}
        />
      ) : null}
      {asks === "retire" ? (
        <Ask
          title={t.retire}
          text={t.retireText}
          yes={t.retire}
          busy={retire.isPending}
          onYes={() => retire.mutate(given)}
          onNo={() => ask(null)}
        />
      ) : null}
    </>
  );
}
