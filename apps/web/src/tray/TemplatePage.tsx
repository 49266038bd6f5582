import type { ReactNode } from "react";
import { useLocation, useSearchParams } from "wouter";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { NotFoundPage } from "../shell/Broken.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import { TemplateForm } from "./TemplateForm.tsx";
import { draftOf, draftOfTray, emptyDraft } from "./template-draft.ts";
import { WithVisitChoices, type VisitChoices } from "./VisitForm.tsx";
import type { Template } from "./visit-plan.ts";

/** A new template (`null`), also made of a tray as it is set; or one to be changed. */
export default function TemplatePage({ templateId }: { templateId: string | null }): ReactNode {
  return (
    <WithVisitChoices>
      {(choices) => {
        if (templateId === null) return <NewTemplate choices={choices} />;
        const template = choices.templates.find(({ id }) => id === templateId);
        return template === undefined ? (
          <NotFoundPage />
        ) : (
          <ChangeTemplate {...{ choices, template }} />
        );
      }}
    </WithVisitChoices>
  );
}

function useKept(): (template: Template) => void {
  const { templates: t } = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  return ({ name }) => {
    refresh("listTemplates");
    announce({ text: t.saved(name) });
    navigate(paths.templates());
  };
}

function NewTemplate({ choices }: { choices: VisitChoices }): ReactNode {
  const { templates: t } = useTexts();
  const [search] = useSearchParams();
  const trayId = search.get("tray") ?? "";
  const tray = useRead("getTray", { params: { trayId } }, { enabled: trayId !== "" });
  const add = useWrite("addTemplate", useKept());
  const about = {
    choices,
    busy: add.isPending,
    error: add.error,
    onSave: (body: Parameters<typeof add.mutate>[0]["body"]) => add.mutate({ body }),
  };
  const start = {
    ...emptyDraft,
    techniqueId: choices.techniques[0]?.id ?? "",
    locationId: choices.rooms[0]?.id ?? "",
  };
  return (
    <Page title={t.addTitle} lead={t.lead}>
      {trayId === "" ? (
        <TemplateForm {...about} start={start} />
      ) : (
        <QueryView query={tray}>
          {(found) => <TemplateForm {...about} start={draftOfTray(found, choices.techniques)} />}
        </QueryView>
      )}
    </Page>
  );
}

interface ChangeTemplateProps {
  choices: VisitChoices;
  template: Template;
}

function ChangeTemplate({ choices, template }: ChangeTemplateProps): ReactNode {
  const { templates: t } = useTexts();
  const change = useWrite("changeTemplate", useKept());
  return (
    <Page title={t.changeTitle(template.name)} lead={t.lead}>
      <TemplateForm
        choices={choices}
        start={draftOf(template)}
        busy={change.isPending}
        error={change.error}
        onSave={(body) => change.mutate({ params: { templateId: template.id }, body })}
      />
    </Page>
  );
}
