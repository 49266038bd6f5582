import type { ReactNode } from "react";
import { useLocation } from "wouter";
import { useRefresh, useWrite } from "../api/queries.ts";
import { serverNowMs } from "../api/server-clock.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { nextHalfHour } from "./practice-time.ts";
import { usePlanQuery } from "./usePlanQuery.ts";
import { VisitForm, WithVisitChoices, type VisitChoices } from "./VisitForm.tsx";
import { applyTemplate, typeTeeth, usualTooth, type VisitPlan } from "./visit-plan.ts";

/** Plans a tray for an appointment: patient, teeth, technique, room and time. */
export default function PlanTrayPage(): ReactNode {
  const t = useTexts();
  const { seal } = usePlanQuery();
  return (
    <Page
      title={t.tray.plan.title}
      actions={
        seal === "" ? null : <LinkButton to={paths.record(seal)}>{t.waiting.record}</LinkButton>
      }
    >
      <WithVisitChoices>{(choices) => <PlanForm choices={choices} />}</WithVisitChoices>
    </Page>
  );
}

function PlanForm({ choices }: { choices: VisitChoices }): ReactNode {
  const t = useTexts();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const start = useStart(choices);
  const save = useWrite("planTray", (tray) => {
    refresh("listTrays", "getToday");
    navigate(paths.tray(tray.id));
  });
  return (
    <VisitForm
      {...{ choices, start }}
      button={t.tray.plan.button}
      busy={save.isPending}
      error={save.error}
      onSave={(body) => save.mutate({ body })}
    />
  );
}

/** What the link to the page knows already, else what is usual. */
function useStart({ techniques, rooms, templates }: VisitChoices): VisitPlan {
  const { today, timeZone } = useFormats();
  const query = usePlanQuery();
  const technique = techniques.find(({ id }) => id === query.technique) ?? techniques[0];
  const plan: VisitPlan = {
    chartNumber: query.chart,
    teethText: typeTeeth(query.tooth === "" ? [] : [query.tooth]),
    usual: usualTooth,
    details: {},
    techniqueId: technique?.id ?? "",
    locationId: rooms[0]?.id ?? "",
    day: query.on || today(),
    time: nextHalfHour(new Date(serverNowMs()).toISOString(), timeZone),
    bondingOn: "",
    templateId: "",
  };
  const template = templates.find(({ id }) => id === query.template);
  return template === undefined ? plan : applyTemplate(plan, template);
}
