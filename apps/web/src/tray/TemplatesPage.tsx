import { useState, type ReactNode } from "react";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button, LinkButton } from "../ui/Button.tsx";
import { Ask } from "../ui/Dialog.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import type { Template } from "./visit-plan.ts";
import "./trays.css";

const productsOf = ({ products }: Template): string =>
  [...new Set(products.flatMap((step) => step.products.map(({ name }) => name)))].join(", ");

/** What the practice sets out time and again. */
export default function TemplatesPage(): ReactNode {
  const { templates: t } = useTexts();
  const query = useRead("listTemplates");
  const mayKeep = useHasRole("assistant", "dentist", "office", "owner");
  return (
    <Page
      title={t.title}
      lead={t.lead}
      actions={
        mayKeep ? (
          <LinkButton to={paths.newTemplate()} kind="main">
            {t.add}
          </LinkButton>
        ) : null
      }
    >
      <QueryView query={query}>
        {({ templates }) =>
          templates.length === 0 ? (
            <EmptyState text={t.empty} />
          ) : (
            <Table
              caption={t.title}
              rows={templates}
              rowKey={({ id }) => id}
              exportName="templates"
              columns={[
                {
                  key: "name",
                  label: t.name,
                  value: ({ name }) => name,
                  show: ({ name }) => <strong>{name}</strong>,
                },
                {
                  key: "technique",
                  label: t.technique,
                  value: ({ technique }) => technique?.name ?? t.outOfUse,
                  show: ({ technique }) => technique?.name ?? t.outOfUse,
                },
                {
                  key: "room",
                  label: t.room,
                  value: ({ location }) => location.name,
                  show: ({ location }) => location.name,
                },
                { key: "products", label: t.products, value: productsOf, show: productsOf },
                {
                  key: "acts",
                  label: t.acts,
                  show: (template) => (mayKeep ? <TemplateActs template={template} /> : null),
                },
              ]}
            />
          )
        }
      </QueryView>
    </Page>
  );
}

function TemplateActs({ template }: { template: Template }): ReactNode {
  const { templates: t } = useTexts();
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [asks, ask] = useState(false);
  const { id, name } = template;
  const remove = useWrite("removeTemplate", () => {
    refresh("listTemplates");
    announce({ text: t.removed(name) });
  });
  return (
    <div className="actions">
      <LinkButton to={paths.planTray({ template: id })}>{t.plan}</LinkButton>
      <LinkButton to={paths.template(id)}>{t.change}</LinkButton>
      <Button kind="quiet" onClick={() => ask(true)}>
        {t.remove}
      </Button>
      <ProblemNote error={remove.error} />
      {asks ? (
        <Ask
          title={t.removeTitle(name)}
          text={t.removeText}
          yes={t.remove}
          busy={remove.isPending}
          onYes={() => remove.mutate({ params: { templateId: id } })}
          onNo={() => ask(false)}
        />
      ) : null}
    </div>
  );
}
