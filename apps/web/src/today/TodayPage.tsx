import type { ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { EmptyState, QueryView } from "../ui/States.tsx";
import { Page } from "../ui/Page.tsx";
import { DayLine } from "./DayLine.tsx";
import { NeedRow } from "./NeedRow.tsx";
import { rankNeeds } from "./urgency.ts";
import { VerdictChanges } from "./VerdictChanges.tsx";
import "./today.css";

/** What needs somebody now: the day's trays along one line, then everything else by urgency. */
export default function TodayPage(): ReactNode {
  const t = useTexts();
  const { day, today } = useFormats();
  const query = useRead("getToday", {}, { everyMs: 30_000 });
  return (
    <Page
      title={day(query.data?.on ?? today())}
      tabTitle={t.today.title}
      actions={
        <LinkButton to={paths.planTray()} kind="main">
          {t.today.plan}
        </LinkButton>
      }
    >
      <QueryView query={query}>
        {(data) => {
          const needs = rankNeeds(data);
          return (
            <>
              <DayLine trays={data.trays} at={data.at} />
              <VerdictChanges />
              <section className="needs">
                <h2>{t.today.list}</h2>
                {needs.length === 0 ? <EmptyState text={t.today.nothing} /> : null}
                <ul>
                  {needs.map((ranked) => (
                    <NeedRow key={ranked.key} ranked={ranked} />
                  ))}
                </ul>
              </section>
            </>
          );
        }}
      </QueryView>
      <ScanEntry />
    </Page>
  );
}
