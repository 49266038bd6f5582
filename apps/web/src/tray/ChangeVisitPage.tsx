import type { ReactNode } from "react";
import { useLocation } from "wouter";
import { clockAt } from "#domain";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import type { Tray } from "./columns.ts";
import { VisitForm, WithVisitChoices, type VisitChoices } from "./VisitForm.tsx";
import { typeTeeth, usualTooth, type VisitPlan } from "./visit-plan.ts";

/** Changes a planned visit; what was scanned in stays. */
export default function ChangeVisitPage({ trayId }: { trayId: string }): ReactNode {
  const t = useTexts();
  const query = useRead("getTray", { params: { trayId } });
  return (
    <Page title={t.tray.plan.changeTitle} lead={t.tray.plan.changeLead}>
      <QueryView query={query}>
        {(tray) => (
          <WithVisitChoices>{(choices) => <ChangeForm {...{ tray, choices }} />}</WithVisitChoices>
        )}
      </QueryView>
    </Page>
  );
}

function ChangeForm({ tray, choices }: { tray: Tray; choices: VisitChoices }): ReactNode {
  const t = useTexts();
  const refresh = useRefresh();
  const [, navigate] = useLocation();
  const start = useVisitOf(tray);
  const save = useWrite("changeTray", ({ id }) => {
    refresh("getTray", "listTrays", "getToday");
    navigate(paths.tray(id));
  });
  // The version that the visit was planned with can be kept also where a later one is used now.
  const isListed = choices.techniques.some(({ id }) => id === tray.technique.id);
  const techniques = isListed ? choices.techniques : [tray.technique, ...choices.techniques];
  return (
    <VisitForm
      choices={{ ...choices, techniques }}
      start={start}
      chartStays
      button={t.common.save}
      busy={save.isPending}
      error={save.error}
      onSave={({ chartNumber: _stays, templateId: _none, ...body }) =>
        save.mutate({ params: { trayId: tray.id }, body })
      }
    />
  );
}

function useVisitOf(tray: Tray): VisitPlan {
  const { timeZone } = useFormats();
  const { day, time } = clockAt(tray.appointmentAt, timeZone);
  return {
    chartNumber: tray.chartNumber,
    teethText: typeTeeth(tray.teeth.map(({ tooth }) => tooth)),
    usual: usualTooth,
    details: Object.fromEntries(tray.teeth.map(({ tooth, ...told }) => [tooth, told])),
    techniqueId: tray.technique.id,
    locationId: tray.location.id,
    day,
    time,
    bondingOn: tray.bondingOn ?? "",
    templateId: "",
  };
}
