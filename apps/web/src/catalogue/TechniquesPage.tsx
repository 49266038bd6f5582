import type { ReactNode } from "react";
import { getMessages } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Page } from "../ui/Page.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { CatalogueParts } from "./CatalogueParts.tsx";
import "./catalogue.css";

type Technique = AnswerOf<"listTechniques">["techniques"][number];
type Step = Technique["steps"][number];

/** The techniques with their steps from left to right, as time flows; to be read, not changed. */
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
            techniques.map((technique) => <TechniqueView key={technique.id} {...{ technique }} />)
          )
        }
      </QueryView>
    </Page>
  );
}

function TechniqueView({ technique }: { technique: Technique }): ReactNode {
  const { techniques: t } = useTexts().catalogue;
  return (
    <section className="panel">
      <div>
        <h2>{technique.name}</h2>
        <p className="hint">
          {[
            technique.visit === "sealing" ? t.sealing : t.bonding,
            t.version(technique.version),
            technique.starter ? t.starter : t.own,
          ].join(" · ")}
        </p>
      </div>
      <ol className="technique-line">
        {technique.steps.map((step) => (
          <StepView key={step.key} step={step} />
        ))}
      </ol>
    </section>
  );
}

function StepView({ step }: { step: Step }): ReactNode {
  const { techniques: t } = useTexts().catalogue;
  const { language } = useFormats();
  const { productKinds, solvents } = getMessages(language);
  const { solventsAllowed, solventNeeded, applicationSeconds, airDrySeconds, cureSeconds } = step;
  const accepts = step.accepts.map((kind) => productKinds[kind]).join(", ");
  const lines = [
    accepts === "" ? t.noMaterial : accepts,
    step.etchesDentin ? t.etches : "",
    solventNeeded === null ? "" : t.needs(solvents[solventNeeded]),
    solventsAllowed === null
      ? ""
      : t.onlySolvents(solventsAllowed.map((s) => solvents[s]).join(", ")),
    applicationSeconds === null ? "" : t.apply(applicationSeconds),
    airDrySeconds === null ? "" : t.dry(airDrySeconds),
    cureSeconds === null ? "" : t.cure(cureSeconds),
    step.required ? "" : t.optional,
  ];
  return (
    <li className={step.required ? undefined : "optional"}>
      <h3>{step.name}</h3>
      {lines.map((line) => (line === "" ? null : <p key={line}>{line}</p>))}
    </li>
  );
}
