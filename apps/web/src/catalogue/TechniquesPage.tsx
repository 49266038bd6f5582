import type { ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { CatalogueParts } from "./CatalogueParts.tsx";
import { TechniqueSteps } from "./TechniqueSteps.tsx";
import "./catalogue.css";

type Technique = AnswerOf<"listTechniques">["techniques"][number];

/** The techniques in use, the practice's own first. */
export default function TechniquesPage(): ReactNode {
  const { catalogue: t } = useTexts();
  const query = useRead("listTechniques");
  return (
    <Page title={t.title} tabTitle={t.parts.techniques} lead={t.techniques.lead}>
      <CatalogueParts />
      <QueryView query={query}>
        {({ techniques }) =>
          techniques.length === 0 ? (
            <EmptyState text={t.techniques.empty} />
          ) : (
            [...techniques]
              .sort((a, b) => Number(a.starter) - Number(b.starter))
              .map((technique) => <TechniquePanel key={technique.id} {...{ technique }} />)
          )
        }
      </QueryView>
    </Page>
  );
}

function TechniquePanel({ technique }: { technique: Technique }): ReactNode {
  const t = useTexts();
  const { techniques: words } = t.catalogue;
  return (
    <section className="panel">
      <div className="panel-head">
        <div>
          <h2>{technique.name}</h2>
          <p className="hint">
            {[
              technique.visit === "sealing" ? words.sealing : words.bonding,
              words.version(technique.version),
              technique.starter ? words.starter : words.own,
            ].join(" · ")}
          </p>
          <ConfirmedMark technique={technique} />
        </div>
        <LinkButton to={paths.technique(technique.id)}>
          {t.technique.open}
          <span className="unseen"> {technique.name}</span>
        </LinkButton>
      </div>
      <TechniqueSteps steps={technique.steps} />
    </section>
  );
}

/** Whether a dentist has confirmed it: by shape and words. */
function ConfirmedMark({ technique }: { technique: Technique }): ReactNode {
  const { technique: t } = useTexts();
  const { shortDate, civilDate } = useFormats();
  const { starter, confirmedAt } = technique;
  return (
    <p className={confirmedAt === null ? "compared-mark open" : "compared-mark"}>
      <VerdictShape verdict={confirmedAt === null ? "caution" : "clear"} />
      <span>
        {confirmedAt !== null
          ? t.confirmedOn(shortDate(civilDate(confirmedAt)))
          : starter
            ? t.starterMark
            : t.notConfirmed}
      </span>
    </p>
  );
}
